package org.hoodkeeper.scenarios;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hoodkeeper.facts.InterfaceType.FULL_MASK;
import static org.hoodkeeper.facts.InterfaceType.POWERED_HOOD;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hoodkeeper.facts.Employment;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.LegalHold;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.SymptomReport;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.facts.Variant;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.oversight.KeepUntil;
import org.hoodkeeper.oversight.Retentions;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** How long the records of somebody who left are kept, and those of the sets that they wore. */
@ScenarioTest
class LeaverTests {

    @Autowired
    Story.Door door;

    @Autowired
    Retentions retentions;

    private static MedicalOutcome fit() {
        return new MedicalOutcome(MedicalOutcome.Result.FIT, Set.of(), null, null, null, false, null, "Works Health");
    }

    private static Examination examination() {
        return new Examination(Outcome.PASS, null, null, "E. Examiner", null);
    }

    private static FitTest fitTest() {
        return new FitTest(
                FitTest.Method.QUANTITATIVE,
                "ambient particle count",
                List.of(new BigDecimal("2600")),
                Outcome.PASS,
                true,
                "F. Tester");
    }

    private static ExposureResult result(String person) {
        return new ExposureResult(new BigDecimal("0.06"), "mg/m3", false, 240, "gravimetric", person, "Laboratory");
    }

    private Story ferrow() {
        return door.ferrow()
                .worker("W-61")
                .limit("silica", "0.1", FilterKind.PARTICLE)
                .task("T4", "silica", "0.6")
                .model("H20", POWERED_HOOD, "TH3", "170", false)
                .model("M20", FULL_MASK, "FM-P3", null, false)
                .set("S-114", "H20", "M");
    }

    private Story pineBasin() {
        return door.pineBasin()
                .worker("W-61")
                .limit("silica", "0.05", FilterKind.PARTICLE)
                .task("T4", "silica", "0.6")
                .model("H20", POWERED_HOOD, Map.of("us-federal", "powered helmet/hood"), "170", false, 480)
                .set("S-114", "H20", "M");
    }

    private static RecordId tells(Story story, org.hoodkeeper.facts.Fact fact, String about, String at) {
        return story.on(at).record(Draft.of(fact, story.id(about), story.instant(at)));
    }

    private static RecordId left(Story story, String lastDay) {
        Instant end = story.instant(LocalDate.parse(lastDay).plusDays(1).toString());
        return story.record(
                Draft.of(new Employment(Employment.Change.ENDED, LocalDate.parse(lastDay)), story.id("W-61"), end));
    }

    private KeepUntil kept(Story story, RecordId record, String at) {
        Instant now = story.instant(at);
        return story.here(all -> retentions.of(story.site().id(), List.of(record.value()), now))
                .get(record.value());
    }

    /** Day by the rules; none for no end. */
    private String until(Story story, RecordId record) {
        return String.valueOf(kept(story, record, "2026-12-01").lastDay());
    }

    /** COSHH 2002 regulations 11(3) and 9(4): 40 years from the last entry, 5 years from the date made. */
    @Test
    void theLeaverOfThirtiethOfJune() {
        Story ferrow = ferrow();
        RecordId first = tells(ferrow, fit(), "W-61", "2021-03-01T09:00");
        RecordId last = tells(ferrow, fit(), "W-61", "2026-05-12T09:00");
        left(ferrow.on("2026-06-29T12:00"), "2026-06-30");
        RecordId examined = tells(ferrow, examination(), "S-114", "2026-10-01T10:00");
        assertThat(until(ferrow, last)).isEqualTo("2066-05-12");
        assertThat(until(ferrow, first)).as("one record, one last entry").isEqualTo("2066-05-12");
        assertThat(until(ferrow, examined)).isEqualTo("2031-10-01");

        assertThat(kept(ferrow, last, "2026-12-01").mayBeErasedOn(LocalDate.parse("2066-05-12")))
                .isFalse();
        assertThat(kept(ferrow, last, "2026-12-01").mayBeErasedOn(LocalDate.parse("2066-05-13")))
                .isTrue();
        ferrow.on("2026-11-01T12:00").tell(new LegalHold(LegalHold.Step.PLACED, "a claim"), "W-61", "2026-11-01T11:00");
        assertThat(kept(ferrow, last, "2026-12-01").mayBeErasedOn(LocalDate.parse("2066-05-13")))
                .as("a legal hold overrides")
                .isFalse();
        assertThat(until(ferrow, last)).as("and leaves the rule's day as it is").isEqualTo("2066-05-12");
        assertThat(kept(ferrow, examined, "2026-12-01").isHeld())
                .as("the set's examination names nobody")
                .isFalse();
    }

    /** What is told late is made on the day on which it was told. */
    @Test
    void theLaterOfEventAndTellingCounts() {
        Story ferrow = ferrow().on("2026-10-09T08:00");
        RecordId late = ferrow.record(Draft.of(examination(), ferrow.id("S-114"), ferrow.instant("2026-10-01T10:00")));
        assertThat(until(ferrow, late)).isEqualTo("2031-10-09");
    }

    /** A correction is part of the record and keeps all of it from its own day. */
    @Test
    void aCorrectionIsAnEntry() {
        Story ferrow = ferrow();
        RecordId told = tells(ferrow, examination(), "S-114", "2026-10-01T10:00");
        Draft again = Draft.of(
                new Examination(Outcome.PASS, null, null, "Another Examiner", null),
                ferrow.id("S-114"),
                ferrow.instant("2026-10-01T10:00"));
        RecordId corrected = ferrow.on("2027-02-03T10:00")
                .here(all -> all.transaction()
                        .execute(status -> all.lookback()
                                .corrections()
                                .correct(ferrow.viewer(Role.OFFICER), told, again, "wrong name")));
        assertThat(until(ferrow, told)).isEqualTo("2032-02-03");
        assertThat(until(ferrow, corrected)).isEqualTo("2032-02-03");
    }

    /** COSHH 2002 regulation 10(5): 40 years where the record tells of a person, 5 years in any other case. */
    @Test
    void exposureOfAPersonAndOfNobody() {
        Story ferrow = ferrow();
        ferrow.on("2024-02-29T12:00");
        Id task = ferrow.id("T4");
        RecordId personal = ferrow.record(Draft.of(result("W-61"), task, ferrow.instant("2024-02-29T08:00"))
                .scope("silica"));
        RecordId area = ferrow.record(
                Draft.of(result(null), task, ferrow.instant("2024-02-29T09:00")).scope("silica"));
        assertThat(until(ferrow, personal)).isEqualTo("2064-02-29");
        assertThat(until(ferrow, area)).isEqualTo("2029-02-28");
        ferrow.on("2025-03-01T12:00")
                .record(Draft.of(result("W-61"), task, ferrow.instant("2025-03-01T08:00"))
                        .scope("silica"));
        assertThat(until(ferrow, personal)).as("the person's last entry").isEqualTo("2065-03-01");
        assertThat(until(ferrow, area)).isEqualTo("2029-02-28");
    }

    /** 29 CFR 1910.1020(d)(1)(i): the duration of employment and 30 years; symptom notes are kept with it. */
    @Test
    void pineBasinKeepsMedicalRecordsForEmploymentAndThirtyYears() {
        Story pine = pineBasin();
        RecordId outcome = tells(pine, fit(), "W-61", "2026-05-12T09:00");
        RecordId report =
                tells(pine, new SymptomReport(SymptomReport.Step.REPORTED, "tight chest"), "W-61", "2026-05-13T09:00");
        assertThat(until(pine, outcome)).as("still employed").isEqualTo("null");
        assertThat(kept(pine, outcome, "2026-12-01").isKnown()).isTrue();
        left(pine.on("2026-06-29T12:00"), "2026-06-30");
        assertThat(until(pine, outcome)).isEqualTo("2056-06-30");
        assertThat(until(pine, report)).isEqualTo("2056-06-30");
        pine.on("2026-09-01T12:00").tell(new Employment(Employment.Change.RESUMED, null), "W-61", "2026-09-01T06:00");
        assertThat(until(pine, outcome)).as("here again").isEqualTo("null");
    }

    /** 29 CFR 1910.134(m)(2)(ii): until the next fit test; of another mask it is another test. */
    @Test
    void pineBasinKeepsAFitTestUntilTheNext() {
        Story pine = pineBasin().model("M20", FULL_MASK, Map.of("us-federal", "full-facepiece"), null, false, null);
        RecordId first = fitTested(pine, "M", "2025-02-03T09:00");
        RecordId other = fitTested(pine, "S", "2025-02-03T10:00");
        assertThat(until(pine, first)).isEqualTo("null");
        RecordId second = fitTested(pine, "M", "2026-02-02T09:00");
        assertThat(until(pine, first)).isEqualTo("2026-02-02");
        assertThat(until(pine, other)).isEqualTo("null");
        assertThat(until(pine, second)).isEqualTo("null");
    }

    private static RecordId fitTested(Story story, String size, String at) {
        return story.on(at)
                .record(Draft.of(fitTest(), story.id("W-61"), story.instant(at))
                        .scope(new Variant("M20", size, "R1").toString()));
    }

    /** 29 CFR 1910.134(h)(3)(iv)(B): the certificate of an emergency set until the next; 5 years are practice for all sets. */
    @Test
    void pineBasinKeepsTheCertificateOfAnEmergencySetUntilTheNext() {
        Story pine = pineBasin();
        SetData emergency = new SetData((ModelId) pine.id("H20"), "M", "R1", null, true, "main", null);
        pine.on("2020-02-01T12:00").tell(emergency, "S-114", "2020-02-01T08:00");
        RecordId first = tells(pine, examination(), "S-114", "2020-03-01T10:00");
        assertThat(until(pine, first)).as("no next one yet").isEqualTo("null");
        tells(pine, examination(), "S-114", "2026-04-01T10:00");
        assertThat(until(pine, first)).isEqualTo("2026-04-01");
    }

    /** 29 CFR 1910.1020(d)(1)(ii): exposure records 30 years from the day made. */
    @Test
    void pineBasinKeepsExposureResultsForThirtyYears() {
        Story pine = pineBasin().on("2024-02-29T12:00");
        RecordId one = pine.record(Draft.of(result("W-61"), pine.id("T4"), pine.instant("2024-02-29T08:00"))
                .scope("silica"));
        assertThat(until(pine, one)).isEqualTo("2054-02-28");
    }

    /** Where a site changed its rule set, each rule counts that is in force at its own anchor; the longest decides. */
    @Test
    void eachRuleIsTakenFromTheRuleSetAtItsAnchor() {
        Story ferrow = ferrow();
        RecordId outcome = tells(ferrow, fit(), "W-61", "2022-05-12T09:00");
        ferrow.on("2025-01-01T12:00").decides("rule-set", "us-federal", "2025-01-01");
        assertThat(until(ferrow, outcome))
                .as("employed, and the US rules count today")
                .isEqualTo("null");
        left(ferrow.on("2026-06-29T12:00"), "2026-06-30");
        assertThat(until(ferrow, outcome))
                .as("UK: 12 May 2062; US: 30 June 2056")
                .isEqualTo("2062-05-12");
    }

    /** A rule set that says nothing of a kind, and a record made before any rule set, keep what they are asked about. */
    @Test
    void whatNobodySaysIsNotKnownAndStays() {
        Story ferrow = ferrow().on("2026-05-12T12:00");
        RecordId hold = ferrow.record(Draft.of(
                new Hold(Hold.Step.PLACED, Hold.Why.SUSPENDED, "r"), ferrow.id("W-61"), ferrow.instant("2026-05-12")));
        KeepUntil kept = kept(ferrow, hold, "2099-01-01");
        assertThat(kept.isKnown()).isFalse();
        assertThat(kept.mayBeErasedOn(LocalDate.parse("2099-01-01"))).isFalse();
    }

    /** What an answer of today may rest on is kept beyond its years. */
    @Test
    void whatIsStillInUseStays() {
        Story ferrow = ferrow();
        RecordId old = tells(ferrow, examination(), "S-114", "2020-03-01T10:00");
        assertThat(kept(ferrow, old, "2026-12-01").inUse()).isEqualTo(KeepUntil.InUse.NEWEST);
        tells(ferrow, examination(), "S-114", "2026-04-01T10:00");
        assertThat(kept(ferrow, old, "2026-12-01").inUse()).isNull();
        assertThat(kept(ferrow, old, "2026-12-01").mayBeErasedOn(LocalDate.parse("2025-03-02")))
                .isTrue();
        RecordId training =
                tells(ferrow, new Training(Outcome.PASS, true, "1", false, "T. Trainer"), "W-61", "2026-05-01T09:00");
        left(ferrow.on("2026-06-29T12:00"), "2026-06-30");
        assertThat(kept(ferrow, training, "2026-06-30").inUse()).isEqualTo(KeepUntil.InUse.NEWEST);
        assertThat(kept(ferrow, training, "2026-07-01").inUse()).isNull();
    }
}
