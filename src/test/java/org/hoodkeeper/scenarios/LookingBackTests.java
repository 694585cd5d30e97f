package org.hoodkeeper.scenarios;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;
import static org.hoodkeeper.facts.InterfaceType.HALF_MASK;
import static org.hoodkeeper.facts.InterfaceType.POWERED_HOOD;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.Finding.Sort;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.SilicaAir;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.oversight.Consequences;
import org.hoodkeeper.oversight.Differences;
import org.hoodkeeper.oversight.Findings;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.SiteBoards;
import org.hoodkeeper.reporting.StoredAnswers;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.JdbcTemplate;

/** What was worn, as the screen said then and as it is known now, and what follows from the difference. */
@ScenarioTest
class LookingBackTests {

    @Autowired
    Story.Door door;

    @Autowired
    JdbcTemplate jdbc;

    @Autowired
    SiteBoards boards;

    private Story ferrow;

    /** Ed is in order for a half mask by every rule but the medical one, which the site decided to ask for. */
    @BeforeEach
    void edWearsAHalfMask() {
        ferrow = door.ferrow()
                .worker("Ed")
                .limit("silica", "0.1", FilterKind.PARTICLE)
                .task("T4", "silica", "0.6")
                .model("M20", HALF_MASK, "half P3", null, false)
                .set("S-M1", "M20", "M")
                .posted("Ed", "T4")
                .decides("medical.required/HALF_MASK", "yes", "2020-01-01")
                .on("2026-05-01T12:00")
                .trained("Ed", "M20", "2026-05-01T09:00")
                .fitTested("Ed", "M20", "M", "2026-05-01T10:00", "164", "150", "170", "180", "160", "155", "165")
                .on("2026-05-12T12:00");
    }

    /** However the record grew, what is kept of each wear is what judging it anew gives. */
    @AfterEach
    void whatIsKeptAgreesWithTheRecord() {
        List<Findings.Found> kept = findings("2026-05-01", "2026-08-01");
        ferrow.here(all -> all.transaction()
                .execute(status -> jdbc.update(
                        "delete from judged_wear where site_id = ?",
                        ferrow.site().id().value())));
        assertThat(findings("2026-05-01", "2026-08-01")).isEqualTo(kept);
    }

    private static MedicalOutcome outcome(MedicalOutcome.Result result) {
        return new MedicalOutcome(
                result,
                result == MedicalOutcome.Result.FIT ? Set.of() : Set.of(POWERED_HOOD),
                null,
                null,
                null,
                false,
                null,
                null);
    }

    private RecordId fit() {
        return ferrow.record(
                Draft.of(outcome(MedicalOutcome.Result.FIT), ferrow.id("Ed"), ferrow.instant("2026-05-12T09:00")));
    }

    /** A morning's wear with everything that belongs to it, told as it happens. */
    private void wears(String day) {
        wears(day, "S-M1", "T4");
    }

    private void wears(String day, String set, String task) {
        ferrow.on(day + "T05:30").disinfected(set, day + "T05:05");
        ferrow.examined(set, null, "", day + "T05:10").clearAtSeal("Ed", day + "T05:20");
        ferrow.issued(set, "Ed", day + "T05:25").on(day + "T05:56").checked(set, "Ed", day + "T05:55");
        ferrow.on(day + "T12:00").wore("Ed", set, task, day + "T06:00", day + "T11:00");
        ferrow.claims(set, Custody.Claim.RETURNED, true, day + "T11:30");
    }

    private List<Findings.Found> findings(String from, String until) {
        return ferrow.here(all -> all.lookback()
                        .findings()
                        .of(ferrow.site().id(), ferrow.instant(from), ferrow.instant(until), 1_000))
                .found();
    }

    private History.Version version(RecordId id) {
        return ferrow.here(all -> all.lookback().history().find(ferrow.site().id(), id, ferrow.instant("2029-01-01")));
    }

    private RecordId corrects(Role role, RecordId old, Draft stated, String because) {
        return ferrow.here(all -> all.lookback().corrections().correct(ferrow.viewer(role), old, stated, because));
    }

    /** As the gate answered on 9 July before six, and the answer was kept. */
    private void edIsLetInByTheGate() {
        Question gate = Question.ofSet(
                ferrow.site().id(),
                (WorkerId) ferrow.id("Ed"),
                (TaskId) ferrow.id("T4"),
                (SetId) ferrow.id("S-M1"),
                new Interval(ferrow.instant("2026-07-09T06:00"), ferrow.instant("2026-07-09T11:00")),
                ferrow.instant("2026-07-09T05:59"));
        ferrow.on("2026-07-09T12:10");
        ferrow.here(all -> all.transaction()
                .execute(status -> all.lookback()
                        .answers()
                        .keep(ferrow.officer(), all.questions().whole(gate), StoredAnswers.Purpose.GATE)));
    }

    private void assessed(String value, String at) {
        ferrow.tell(Draft.of(SilicaAir.of(value), ferrow.id("T4"), ferrow.instant(at)));
    }

    private Draft sampled(String value) {
        return Draft.of(
                        new ExposureResult(new BigDecimal(value), "mg/m3", false, null, null, null, null),
                        ferrow.id("T4"),
                        ferrow.instant("2026-05-13T14:00"))
                .scope("silica");
    }

    /** The answer at the gate names the assessment of 20 May, which weighed 0.5. It should have been 2.5: 25 times the limit, above 20. */
    @Test
    void whatRestedOnAnAssessmentRestedOnTheResultsThatItWeighed() {
        fit();
        ferrow.on("2026-05-14T12:00");
        RecordId wrong = ferrow.record(sampled("0.5"));
        ferrow.on("2026-05-20T12:00");
        assessed("0.6", "2026-05-20T11:00");
        wears("2026-07-09");
        edIsLetInByTheGate();
        ferrow.on("2026-07-20T12:00");
        corrects(Role.HYGIENIST, wrong, sampled("2.5"), "misread");
        Consequences.All touched =
                ferrow.here(all -> all.lookback().consequences().of(ferrow.viewer(Role.HYGIENIST), version(wrong)));
        assertThat(touched.assessments())
                .extracting(Consequences.Assessed::from)
                .containsExactly(ferrow.instant("2026-05-20T11:00"));
        assertThat(touched.answers())
                .extracting(Consequences.Given::then, Consequences.Given::now)
                .containsExactly(tuple(Verdict.CLEARED, Verdict.NOT_CLEARED));
        assertThat(touched.wears())
                .extracting(one -> one.worn().from(), Consequences.Touched::before, Consequences.Touched::after)
                .containsExactly(tuple(ferrow.instant("2026-07-09T06:00"), Verdict.CLEARED, Verdict.NOT_CLEARED));
    }

    @Test
    void aWrongOutcomeIsCorrectedAndEverythingThatRestedOnItComesToLight() {
        RecordId wrong = fit();
        wears("2026-06-03");
        wears("2026-07-09");
        Interval wear = new Interval(ferrow.instant("2026-07-09T06:00"), ferrow.instant("2026-07-09T11:00"));
        edIsLetInByTheGate();
        assertThat(findings("2026-06-01", "2026-07-31")).isEmpty();

        RecordId right = corrects(
                Role.HEALTH,
                wrong,
                Draft.of(
                        outcome(MedicalOutcome.Result.FIT_WITH_LIMITS),
                        ferrow.id("Ed"),
                        ferrow.instant("2026-05-12T09:00")),
                "hoods only was left out");

        AnswerAssert.assertThat(ferrow.may("Ed", "T4")
                        .with("S-M1")
                        .asKnownAt("2026-06-03T05:59")
                        .from("2026-06-03T06:00", "2026-06-03T11:00"))
                .isCleared();
        AnswerAssert.assertThat(ferrow.may("Ed", "T4").with("S-M1").from("2026-06-03T06:00", "2026-06-03T11:00"))
                .isNotCleared();
        for (Role reader : List.of(Role.OFFICER, Role.HEALTH)) {
            Consequences.All touched =
                    ferrow.here(all -> all.lookback().consequences().of(ferrow.viewer(reader), version(wrong)));
            assertThat(touched.wears())
                    .extracting(one -> one.worn().from(), Consequences.Touched::before, Consequences.Touched::after)
                    .containsExactly(
                            tuple(ferrow.instant("2026-07-09T06:00"), Verdict.CLEARED, Verdict.NOT_CLEARED),
                            tuple(ferrow.instant("2026-06-03T06:00"), Verdict.CLEARED, Verdict.NOT_CLEARED));
            assertThat(touched.answers()).hasSize(1);
            assertThat(touched.answers().get(0).then()).isEqualTo(Verdict.CLEARED);
            assertThat(touched.answers().get(0).now()).isEqualTo(Verdict.NOT_CLEARED);
        }
        History.Version old = version(wrong);
        assertThat(old.replacedBy()).isEqualTo(right);
        assertThat(old.told().fact()).isEqualTo(outcome(MedicalOutcome.Result.FIT));
        assertThat(version(right).because()).isEqualTo("hoods only was left out");
        assertThat(findings("2026-06-01", "2026-07-31"))
                .extracting(Findings.Found::sort, found -> found.worn().from(), Findings.Found::barred)
                .containsExactly(
                        tuple(Sort.PROTECTION_GAP, ferrow.instant("2026-07-09T06:00"), List.of("MEDICAL")),
                        tuple(Sort.PROTECTION_GAP, ferrow.instant("2026-06-03T06:00"), List.of("MEDICAL")));
    }

    @Test
    void onlyTheHealthRoleCorrectsWhatIsMedicalAndOnlyTheNewestVersion() {
        RecordId wrong = fit();
        Draft stated = Draft.of(
                outcome(MedicalOutcome.Result.FIT_WITH_LIMITS), ferrow.id("Ed"), ferrow.instant("2026-05-12T09:00"));
        assertThatThrownBy(() -> corrects(Role.OFFICER, wrong, stated, "why"))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo("correction.notEntitled"));
        assertThatThrownBy(() -> corrects(Role.HEALTH, wrong, stated, " "))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo("ledger.becauseMissing"));
        RecordId right = corrects(Role.HEALTH, wrong, stated, "why");
        assertThatThrownBy(() -> corrects(Role.HEALTH, wrong, stated, "again"))
                .isInstanceOfSatisfying(Refused.class, refused -> {
                    assertThat(refused.code()).isEqualTo("ledger.corrected");
                    assertThat(refused.arguments()).containsExactly(right);
                });
    }

    /** The control failed that morning: the paper that came a week later does not undo that. */
    @Test
    void evidenceThatComesLateCuresTheGapAndNotTheControlFailure() {
        wears("2026-06-03");
        assertThat(findings("2026-06-01", "2026-07-31"))
                .extracting(Findings.Found::sort)
                .containsExactly(Sort.CONTROL_FAILURE, Sort.PROTECTION_GAP);
        ferrow.on("2026-06-10T12:00");
        RecordId late = fit();
        List<Findings.Found> found = findings("2026-06-01", "2026-07-31");
        assertThat(found).extracting(Findings.Found::sort).containsExactly(Sort.CONTROL_FAILURE);
        assertThat(found.get(0).isCured()).isTrue();
        assertThat(found.get(0).said()).isEqualTo(Verdict.NOT_CLEARED);
        assertThat(found.get(0).known()).isEqualTo(Verdict.CLEARED);
        assertThat(found.get(0).barred()).containsExactly("MEDICAL");
        assertThat(version(late).told().recordedAt()).isAfter(ferrow.instant("2026-06-10T00:00"));
    }

    @Test
    void aFindingClosesOnlyWithWhatWasDone() {
        wears("2026-06-03");
        ferrow.on("2026-06-10T12:00");
        Findings.Found gap = findings("2026-06-01", "2026-07-31").stream()
                .filter(found -> found.sort() == Sort.PROTECTION_GAP)
                .findFirst()
                .orElseThrow();
        RecordId root = gap.worn().root();
        var owner = ferrow.officer().account();
        assertThat(gap.state()).isEqualTo(Findings.State.UNASSIGNED);
        assertThatThrownBy(() -> assign(root, null, LocalDate.parse("2026-06-20")))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo("finding.owner.missing"));
        assertThatThrownBy(() -> assign(root, owner, LocalDate.parse("2026-06-09")))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo("finding.dueOn.past"));
        assign(root, owner, LocalDate.parse("2026-06-20"));
        assertThat(gap(root).state()).isEqualTo(Findings.State.ASSIGNED);
        ferrow.on("2026-06-20T23:59");
        assertThat(gap(root).state()).isEqualTo(Findings.State.ASSIGNED);
        ferrow.on("2026-06-21T00:00");
        assertThat(gap(root).state()).isEqualTo(Findings.State.OVERDUE);
        assertThatThrownBy(() -> close(root, ""))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo("finding.action.missing"));
        close(root, "seen by the health professional; the gate now asks");
        assertThat(gap(root).state()).isEqualTo(Findings.State.CLOSED);
        assertThat(gap(root).steps()).hasSize(2);
        assertThatThrownBy(() -> close(root, "again"))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo("finding.closed"));
        fit();
        assertThat(gap(root).holds())
                .as("cured, and still on the list of what was closed")
                .isFalse();
        assertThat(findings("2026-06-01", "2026-07-31")).hasSize(2);
    }

    private RecordId assign(RecordId root, AccountId owner, LocalDate due) {
        return ferrow.here(
                all -> all.lookback().findings().assign(ferrow.officer(), root, Sort.PROTECTION_GAP, owner, due));
    }

    private RecordId close(RecordId root, String action) {
        return ferrow.here(all -> all.lookback().findings().close(ferrow.officer(), root, Sort.PROTECTION_GAP, action));
    }

    private Findings.Found gap(RecordId root) {
        return ferrow.here(all -> all.lookback().findings().one(ferrow.site().id(), root, Sort.PROTECTION_GAP));
    }

    /** A wear on record for the wrong person is no wear of that person: correct it, and the finding goes with it. */
    @Test
    void aWearThatIsTurnedToAnotherPersonTakesItsFindingAlong() {
        ferrow.worker("Flo");
        wears("2026-06-03");
        Findings.Found gap = findings("2026-06-01", "2026-07-31").get(1);
        ferrow.on("2026-06-04T12:00");
        RecordId turned = corrects(
                Role.SUPERVISOR,
                gap.worn().entry(),
                Draft.of(
                                version(gap.worn().entry()).told().fact(),
                                ferrow.id("Flo"),
                                gap.worn().from())
                        .item(ferrow.id("S-M1"))
                        .until(gap.worn().until()),
                "it was Flo");
        assertThat(findings("2026-06-01", "2026-07-31"))
                .allSatisfy(found -> {
                    assertThat(found.worn().worker()).isEqualTo(ferrow.id("Flo"));
                    assertThat(found.worn().entry()).isEqualTo(turned);
                    assertThat(found.worn().root()).isEqualTo(gap.worn().root());
                })
                .isNotEmpty();
    }

    @Test
    void aSetThatTheSiteWasToldOfLaterCouldNotBeClearedThen() {
        fit();
        ferrow.on("2026-06-10T12:00").set("S-NEW", "M20", "M");
        ferrow.wore("Ed", "S-NEW", "T4", "2026-06-03T06:00", "2026-06-03T11:00");
        List<Findings.Found> found = findings("2026-06-01", "2026-07-31");
        assertThat(found).extracting(Findings.Found::sort).containsExactly(Sort.CONTROL_FAILURE, Sort.PROTECTION_GAP);
        assertThat(found.get(0).said()).isEqualTo(Verdict.NOT_CLEARED);
        assertThat(found.get(0).barred())
                .as("nothing was known that could have stood in the way")
                .isEmpty();
    }

    /** A rule that the site changes from a date on: what was worn before stays as it was. */
    @Test
    void aRuleThatChangesOnADateLeavesThePastAlone() {
        fit();
        wears("2026-06-03");
        ferrow.on("2026-07-01T12:00").decides("training.interval", "P1M", "2026-07-01");
        wears("2026-07-09");
        List<Findings.Found> found = findings("2026-06-01", "2026-07-31");
        assertThat(found)
                .extracting(one -> one.worn().from(), Findings.Found::sort)
                .containsExactly(
                        tuple(ferrow.instant("2026-07-09T06:00"), Sort.CONTROL_FAILURE),
                        tuple(ferrow.instant("2026-07-09T06:00"), Sort.PROTECTION_GAP));
        assertThat(found.get(0).barred()).containsExactly("TRAINING");
        ferrow.on("2026-07-20T12:00");
        AnswerAssert.assertThat(ferrow.may("Ed", "T4").with("S-M1").from("2026-06-03T06:00", "2026-06-03T11:00"))
                .isCleared();
    }

    /** 180 shown by an indicator that reads 12 % high is 160.7: less than 170. The answer names the reading, not the calibration. */
    @Test
    void whatAnInstrumentProvedRestedOnItsCalibration() {
        aHood();
        gateAnswerWithHood("2026-06-03");
        ferrow.on("2026-07-15T12:00");
        RecordId wrong = found(ferrow.id("FI-1"), Kind.CALIBRATION);
        corrects(
                Role.STOREKEEPER,
                wrong,
                calibration(true, "1.12", "2027-04-30", "2026-05-01T00:00"),
                "the certificate says 1.12");
        Consequences.All touched = touchedBy(wrong);
        assertThat(touched.answers())
                .extracting(Consequences.Given::then, Consequences.Given::now)
                .containsExactly(tuple(Verdict.CLEARED, Verdict.NOT_CLEARED));
        assertThat(touched.wears())
                .extracting(Consequences.Touched::before, Consequences.Touched::after)
                .containsExactly(tuple(Verdict.CLEARED, Verdict.NOT_CLEARED));
    }

    /** The flow of 3 June was proven before the calibration of the 4th, which says that the indicator was right until then. */
    @Test
    void aReadingRestedAlsoOnTheCalibrationThatFoundTheInstrumentRight() {
        aHood();
        hoodIsReady("2026-06-03");
        ferrow.on("2026-06-04T12:00");
        RecordId wrong = ferrow.record(calibration(true, "1", "2027-06-03", "2026-06-04T09:00"));
        edIsLetInWithTheHood("2026-06-05");
        ferrow.on("2026-07-15T12:00");
        corrects(
                Role.STOREKEEPER,
                wrong,
                calibration(false, "1", "2027-06-03", "2026-06-04T09:00"),
                "it came in out of tolerance");
        assertThat(touchedBy(wrong).answers())
                .extracting(Consequences.Given::then, Consequences.Given::now)
                .containsExactly(tuple(Verdict.CLEARED, Verdict.NOT_CLEARED));
    }

    /** A hood of another size is the same hood to every requirement, and yet not the one that was looked at. */
    @Test
    void whatWasAnsweredAboutASetRestedOnWhatTheSetWasSaidToBe() {
        aHood();
        gateAnswerWithHood("2026-06-03");
        ferrow.on("2026-07-15T12:00");
        RecordId wrong = theHoodIsAnL();
        Consequences.All touched = touchedBy(wrong);
        assertThat(touched.answers()).extracting(Consequences.Given::then).containsExactly(Verdict.CLEARED);
        assertThat(touched.wears())
                .extracting(one -> one.worn().from())
                .containsExactly(ferrow.instant("2026-06-03T06:00"));
    }

    /** Told as L on 15 June: who went in on the 18th went in with a hood of size L. */
    @Test
    void aWearThatBeganAfterTheRightDataHadBeenToldDidNotRestOnTheWrongOnes() {
        aHood();
        gateAnswerWithHood("2026-06-03");
        ferrow.on("2026-06-15T12:00");
        RecordId wrong = theHoodIsAnL();
        ferrow.on("2026-06-18T12:00").wore("Ed", "S-H1", "T4", "2026-06-18T06:00", "2026-06-18T11:00");
        assertThat(touchedBy(wrong).wears())
                .extracting(one -> one.worn().from())
                .containsExactly(ferrow.instant("2026-06-03T06:00"));
    }

    /** What the maker says of the model is on record from a day earlier: no verdict turns, and yet each was given by it. */
    @Test
    void whatWasAnsweredAboutASetRestedOnWhatItsModelWasSaidToBe() {
        fit();
        wears("2026-07-09");
        edIsLetInByTheGate();
        ferrow.on("2026-07-20T12:00");
        RecordId wrong = found(ferrow.id("M20"), Kind.MODEL);
        corrects(
                Role.OFFICER,
                wrong,
                Draft.of(
                        version(wrong).told().fact(),
                        ferrow.id("M20"),
                        version(wrong).told().from().minusSeconds(86_400)),
                "the day was misread");
        Consequences.All touched = touchedBy(wrong);
        assertThat(touched.answers())
                .extracting(Consequences.Given::then, Consequences.Given::now)
                .containsExactly(tuple(Verdict.CLEARED, Verdict.CLEARED));
        assertThat(touched.wears()).hasSize(1);
    }

    /** That another visor had been fitted in May was told a week after the gate had answered by the first one. */
    @Test
    void anAnswerRestedOnTheLastPartThatWasKnownThen() {
        aHood();
        RecordId first = visor("LOT-1", "2026-05-20T09:00");
        gateAnswerWithHood("2026-06-03");
        ferrow.on("2026-06-10T12:00");
        fitted("LOT-2", "2026-05-25T09:00");
        ferrow.on("2026-07-15T12:00");
        misread(first);
        assertThat(touchedBy(first).answers()).hasSize(1);
        assertThat(touchedBy(first).wears())
                .as("as known before it was corrected")
                .isEmpty();
    }

    /** A part that was followed by another one before the wear has nothing to do with it. */
    @Test
    void aPartThatWasOutByThenCarriesNoAnswer() {
        aHood();
        RecordId first = visor("LOT-1", "2026-05-20T09:00");
        RecordId second = visor("LOT-2", "2026-05-25T09:00");
        gateAnswerWithHood("2026-06-03");
        ferrow.on("2026-07-15T12:00");
        misread(first);
        misread(second);
        assertThat(touchedBy(first).answers()).isEmpty();
        assertThat(touchedBy(second).answers()).hasSize(1);
    }

    /** Of the flow indicator. */
    private Draft calibration(boolean foundInTolerance, String factor, String lastDay, String at) {
        return Draft.of(
                new Calibration(
                        Outcome.PASS,
                        foundInTolerance,
                        new BigDecimal(factor),
                        null,
                        new BigDecimal("20"),
                        new BigDecimal("1013.25"),
                        LocalDate.parse(lastDay),
                        null,
                        null),
                ferrow.id("FI-1"),
                ferrow.instant(at));
    }

    /** @return what was said of it before */
    private RecordId theHoodIsAnL() {
        RecordId wrong = found(ferrow.id("S-H1"), Kind.SET);
        SetData data = (SetData) version(wrong).told().fact();
        corrects(
                Role.STOREKEEPER,
                wrong,
                Draft.of(
                        new SetData(data.model(), "L", data.sealRevision(), null, false, data.store(), data.serial()),
                        ferrow.id("S-H1"),
                        version(wrong).told().from()),
                "the tag says L");
        return wrong;
    }

    private void aHood() {
        ferrow.model("H20", POWERED_HOOD, "TH2", "170", false).set("S-H1", "H20", "M");
    }

    private void misread(RecordId part) {
        corrects(
                Role.STOREKEEPER,
                part,
                Draft.of(
                                new PartChange("V-H20", "LOT-9", null, null, true, null),
                                ferrow.id("S-H1"),
                                version(part).told().from())
                        .scope("visor"),
                "the lot was misread");
    }

    private RecordId visor(String lot, String at) {
        ferrow.on(at);
        return fitted(lot, at);
    }

    private RecordId fitted(String lot, String at) {
        return ferrow.record(
                Draft.of(new PartChange("V-H20", lot, null, null, true, null), ferrow.id("S-H1"), ferrow.instant(at))
                        .scope("visor"));
    }

    private Consequences.All touchedBy(RecordId wrong) {
        return ferrow.here(all -> all.lookback().consequences().of(ferrow.officer(), version(wrong)));
    }

    /** Ed goes in with a hood whose flow the indicator proved; the gate's answer is kept. */
    private void gateAnswerWithHood(String day) {
        hoodIsReady(day);
        edIsLetInWithTheHood(day);
    }

    private void hoodIsReady(String day) {
        ferrow.indicator("FI-1", "2026-05-01", "2027-04-30").trained("Ed", "H20", "2026-05-12T09:00");
        ferrow.on(day + "T05:30").disinfected("S-H1", day + "T05:05").examined("S-H1", "180", "FI-1", day + "T05:10");
        ferrow.issued("S-H1", "Ed", day + "T05:25");
    }

    private void edIsLetInWithTheHood(String day) {
        ferrow.on(day + "T05:56").checked("S-H1", "Ed", day + "T05:55");
        Question gate = Question.ofSet(
                ferrow.site().id(),
                (WorkerId) ferrow.id("Ed"),
                (TaskId) ferrow.id("T4"),
                (SetId) ferrow.id("S-H1"),
                new Interval(ferrow.instant(day + "T06:00"), ferrow.instant(day + "T11:00")),
                ferrow.instant(day + "T05:59"));
        ferrow.on(day + "T12:00").wore("Ed", "S-H1", "T4", day + "T06:00", day + "T11:00");
        ferrow.here(all -> all.transaction()
                .execute(status -> all.lookback()
                        .answers()
                        .keep(ferrow.officer(), all.questions().whole(gate), StoredAnswers.Purpose.GATE)));
    }

    /** The indicator of June read 12 % high: the flows that it proved prove nothing any more. */
    @Test
    void anInstrumentFoundWrongAfterwardsOpensWhatItHadProven() {
        aHood();
        String day = "2026-06-03";
        hoodIsReady(day);
        ferrow.on(day + "T05:56").checked("S-H1", "Ed", day + "T05:55");
        ferrow.on(day + "T12:00").wore("Ed", "S-H1", "T4", day + "T06:00", day + "T11:00");
        assertThat(findings("2026-06-01", "2026-07-31")).isEmpty();
        ferrow.on("2026-07-15T12:00");
        ferrow.tell(calibration(false, "1.12", "2027-07-14", "2026-07-15T10:00"));
        List<Findings.Found> found = findings("2026-06-01", "2026-07-31");
        assertThat(found).extracting(Findings.Found::sort).containsExactly(Sort.PROTECTION_GAP);
        assertThat(found.get(0).said()).isEqualTo(Verdict.CLEARED);
        assertThat(found.get(0).barred()).contains("FLOW");
        Instant now = ferrow.instant("2026-07-16T00:00");
        var moment = Moment.of(ferrow.instant(day + "T08:00"), true, now);
        assertThat(differences(ferrow.officer(), moment, now).changes())
                .as("it is of July, and turned a verdict of June")
                .extracting(change -> change.version().told().id())
                .contains(found(ferrow.id("FI-1"), Kind.CALIBRATION));
    }

    private Differences.All differences(Viewer reader, Moment moment, Instant now) {
        return ferrow.here(story ->
                story.lookback().differences().ofBoard(reader, boards.compared(reader, moment.at(), now), moment, now));
    }

    private RecordId found(Id subject, Kind kind) {
        return ferrow.here(story -> story.lookback()
                .history()
                .of(ferrow.site().id(), subject, Set.of(kind), ferrow.instant("2029-01-01"), 1)
                .get(0)
                .told()
                .id());
    }

    /** What a reader may not see takes no room from what that reader may. */
    @Test
    void aNewRecordIsListedBelowManyThatThisReaderMayNotSee() {
        ferrow.on("2026-06-10T12:00");
        RecordId late = ferrow.record(Draft.of(
                        new Training(Outcome.PASS, true, null, false, null),
                        ferrow.id("Ed"),
                        ferrow.instant("2026-06-02T09:00"))
                .scope("M20"));
        for (int i = 0; i < 210; i++) {
            fit();
        }
        Instant now = ferrow.instant("2026-06-12T00:00");
        var moment = Moment.of(ferrow.instant("2026-06-03T06:00"), true, now);
        var all = differences(ferrow.viewer(Role.SUPERVISOR), moment, now);
        assertThat(all.changes())
                .extracting(change -> change.version().told().id())
                .containsExactly(late);
        assertThat(all.more()).isFalse();
    }

    /** A long import, or a slow line: it was told before the look and is seen after it. */
    @Test
    void whatSomebodyIsStillWritingWhileWearsAreJudgedIsNotMissedAfterwards() throws Exception {
        fit();
        wears("2026-06-03");
        CountDownLatch written = new CountDownLatch(1);
        CountDownLatch looked = new CountDownLatch(1);
        Author supervisor = new Author(ferrow.site().id(), new AccountId(UUID.randomUUID()), Author.Via.FORM);
        CompletableFuture<?> writer = CompletableFuture.supplyAsync(() ->
                ferrow.here(all -> all.transaction().execute(status -> {
                    RecordId stopped = all.ledger()
                            .append(
                                    supervisor,
                                    Draft.of(
                                            new Hold(Hold.Step.PLACED, Hold.Why.SUSPENDED, null),
                                            ferrow.id("Ed"),
                                            ferrow.instant("2026-06-03T05:50")));
                    written.countDown();
                    wait(looked);
                    return stopped;
                })));
        wait(written);
        assertThat(findings("2026-06-01", "2026-07-31")).as("not told yet").isEmpty();
        looked.countDown();
        writer.get(30, TimeUnit.SECONDS);
        assertThat(findings("2026-06-01", "2026-07-31"))
                .extracting(Findings.Found::sort)
                .containsExactly(Sort.PROTECTION_GAP);
    }

    private static void wait(CountDownLatch latch) {
        try {
            assertThat(latch.await(30, TimeUnit.SECONDS)).isTrue();
        } catch (InterruptedException stopped) {
            throw new AssertionError(stopped);
        }
    }

    @Test
    void whatWasToldSinceAndWhichVerdictsTurnedIsListed() {
        ferrow.issued("S-M1", "Ed", "2026-05-12T11:00").on("2026-06-10T12:00");
        RecordId late = fit();
        ferrow.on("2026-06-11T12:00")
                .tell(Draft.of(
                                new Training(Outcome.PASS, true, null, false, null),
                                ferrow.id("Ed"),
                                ferrow.instant("2026-06-11T09:00"))
                        .scope("M20"));
        Instant at = ferrow.instant("2026-06-03T06:00");
        var moment = Moment.of(at, true, ferrow.instant("2026-06-12T00:00"));
        var all = differences(ferrow.officer(), moment, ferrow.instant("2026-06-12T00:00"));
        assertThat(all.changes())
                .extracting(change -> change.version().told().id())
                .containsExactly(late);
        assertThat(all.changes().get(0).late()).isEqualTo(Duration.ofDays(29).toDays());
        var supervisor = differences(ferrow.viewer(Role.SUPERVISOR), moment, ferrow.instant("2026-06-12T00:00"));
        assertThat(supervisor.changes())
                .as("nothing medical, not even that it was told")
                .isEmpty();
    }
}
