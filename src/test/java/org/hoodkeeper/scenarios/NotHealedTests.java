package org.hoodkeeper.scenarios;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hoodkeeper.facts.InterfaceType.HALF_MASK;
import static org.hoodkeeper.facts.InterfaceType.POWERED_HOOD;

import java.math.BigDecimal;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.rules.RequirementKind;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** What stood in the way is not taken away by something that says nothing about it: use, a release, a tick, a day gone by. */
@ScenarioTest
class NotHealedTests {

    @Autowired
    Story.Door door;

    private Story hood() {
        return door.ferrow()
                .worker("Kay")
                .limit("silica", "0.1", FilterKind.PARTICLE)
                .task("T4", "silica", "0.6")
                .model("H20", POWERED_HOOD, "TH2", "170", false)
                .set("S-201", "H20", "M")
                .posted("Kay", "T4")
                .decides("clean.interval", "P7D", "2026-01-01")
                .on("2026-08-03T12:00")
                .indicator("FI-1", "2026-05-01", "2027-04-30")
                .trained("Kay", "H20", "2026-08-03T09:00");
    }

    /** Cleaned on 1 October and worn each day since: the week was over at the end of the 8th, and stays over. */
    @Test
    void aWeekWithoutACleanIsNotHealedByWearingOn() {
        Story f = cleanedInOctoberAndWorn(2, 12).on("2026-10-13T05:00");
        Answer later = f.may("Kay", "T4").with("S-201").from("2026-10-13T06:00", "2026-10-13T12:00");
        assertThat(why(later, RequirementKind.CLEAN)).containsExactly(Why.LAPSED);
    }

    /** In use before, fully cleaned on 1 October, worn from six to twelve on each of these days of it. */
    private Story cleanedInOctoberAndWorn(int first, int last) {
        Story f = hood().on("2026-09-02T20:00")
                .disinfected("S-201", "2026-09-01T09:00")
                .wore("Kay", "S-201", "T4", "2026-09-02T06:00", "2026-09-02T12:00")
                .on("2026-10-01T12:00")
                .disinfected("S-201", "2026-10-01T09:00")
                .examined("S-201", "190", "FI-1", "2026-10-01T10:00")
                .on("2026-10-%02dT13:00".formatted(last));
        for (int day = first; day <= last; day++) {
            String date = "2026-10-%02d".formatted(day);
            f.wore("Kay", "S-201", "T4", date + "T06:00", date + "T12:00");
        }
        return f;
    }

    /** The same on a site that records checks and no entries. */
    @Test
    void aWeekWithoutACleanIsNotHealedByTheNextCheck() {
        Story f = hood().on("2026-09-03T12:00");
        check(f, "Kay", "S-201", "2026-09-02T05:50", Outcome.PASS, 100, Map.of());
        f.on("2026-10-01T12:00")
                .disinfected("S-201", "2026-10-01T09:00")
                .examined("S-201", "190", "FI-1", "2026-10-01T10:00")
                .on("2026-10-09T05:55");
        for (int day = 2; day <= 9; day++) {
            check(f, "Kay", "S-201", "2026-10-%02dT05:50".formatted(day), Outcome.PASS, 100, Map.of());
        }
        Answer answer = f.may("Kay", "T4").with("S-201").from("2026-10-09T06:00", "2026-10-09T12:00");
        assertThat(why(answer, RequirementKind.CLEAN)).containsExactly(Why.LAPSED);
    }

    /** A hood that waited clean on the shelf runs its week from the first wear, 9 October to the end of the 16th. */
    @Test
    void aSetThatWaitedCleanRunsItsWeekFromTheFirstWear() {
        Story f = cleanedInOctoberAndWorn(9, 14).on("2026-10-15T05:00");
        Answer answer = f.may("Kay", "T4").with("S-201").from("2026-10-15T06:00", "2026-10-15T12:00");
        assertThat(why(answer, RequirementKind.CLEAN)).isEmpty();
        assertThat(f.may("Kay", "T4")
                        .with("S-201")
                        .from("2026-10-17T06:00", "2026-10-17T12:00")
                        .reasons())
                .filteredOn(reason -> reason.kind() == RequirementKind.CLEAN)
                .extracting(Reason::why)
                .containsExactly(Why.LAPSED);
    }

    /** 150 L/min at the wearer's check; whoever let the hood go again measured nothing. */
    @Test
    void aLowFlowIsNotHealedByARelease() {
        Story f = ready().on("2026-11-25T07:30");
        check(f, "Kay", "S-201", "2026-11-25T05:50", Outcome.PASS, 100, Map.of(PreUseCheck.Item.FLOW, Outcome.FAIL));
        release(f, hold(f, Hold.Why.DEFECT, "2026-11-25T05:50"), Hold.Why.DEFECT, "2026-11-25T07:00");
        Answer answer = f.may("Kay", "T4").with("S-201").from("2026-11-25T08:00", "2026-11-25T10:00");
        assertThat(why(answer, RequirementKind.FLOW)).containsExactly(Why.UNDONE);
        assertThat(why(answer, RequirementKind.KIT_HOLD)).isEmpty();
        f.flowChecked("S-201", "190", "FI-1", "2026-11-25T07:10");
        assertThat(why(
                        f.may("Kay", "T4").with("S-201").from("2026-11-25T08:00", "2026-11-25T10:00"),
                        RequirementKind.FLOW))
                .isEmpty();
    }

    @Test
    void aFailedCheckIsNotHealedByTheReleaseOfARecall() {
        Story f = ready().on("2026-11-25T07:30");
        RecordId recall = hold(f, Hold.Why.RECALL, "2026-11-24T09:00");
        check(f, "Kay", "S-201", "2026-11-25T05:50", Outcome.PASS, 100, Map.of(PreUseCheck.Item.VISOR, Outcome.FAIL));
        release(f, recall, Hold.Why.RECALL, "2026-11-25T07:00");
        Answer answer = f.may("Kay", "T4").with("S-201").from("2026-11-25T08:00", "2026-11-25T10:00");
        assertThat(why(answer, RequirementKind.KIT_HOLD)).containsExactly(Why.FAILED);
    }

    /** 60 % of 8 h at 21:00, good for 12 h. Planned from 06:00: 4 h 48 min later it stops, although the check runs out at 09:00. */
    @Test
    void aHalfFullBatteryIsNotFilledByTheEndOfItsCheck() {
        Story f = ready().on("2026-11-24T21:05");
        check(f, "Kay", "S-201", "2026-11-24T21:00", Outcome.PASS, 60, Map.of());
        Answer answer = f.may("Kay", "T4").with("S-201").from("2026-11-25T06:00", "2026-11-25T13:00");
        assertThat(answer.verdict()).isEqualTo(Verdict.NOT_CLEARED);
        assertThat(why(answer, RequirementKind.BATTERY)).containsExactly(Why.BATTERY_ENDS);
        assertThat(f.may("Kay", "T4")
                        .with("S-201")
                        .from("2026-11-25T06:00", "2026-11-25T10:30")
                        .reasons())
                .filteredOn(reason -> reason.kind() == RequirementKind.BATTERY)
                .extracting(Reason::goodUntil)
                .containsExactly(f.instant("2026-11-25T10:48"));
    }

    @Test
    void aCheckThatReadNoChargeIsNotWhole() {
        Story f = ready().on("2026-11-25T05:55");
        check(f, "Kay", "S-201", "2026-11-25T05:50", Outcome.PASS, null, Map.of());
        Answer answer = f.may("Kay", "T4").with("S-201").from("2026-11-25T06:00", "2026-11-25T10:00");
        assertThat(why(answer, RequirementKind.PRE_USE_CHECK)).containsExactly(Why.INCOMPLETE);
    }

    /** The supervisor saw it at 05:40; the wearer ticked "clean-shaven" a minute later. */
    @Test
    void aBeardIsNotShavenByATick() {
        Story f = mask().bearded("Kay", "2026-11-25T05:40");
        check(f, "Kay", "M-1", "2026-11-25T05:41", Outcome.PASS, null, Map.of());
        assertThat(why(today(f, "M-1"), RequirementKind.HAIR_AT_SEAL)).containsExactly(Why.HAIR_AT_SEAL);
        f.clearAtSeal("Kay", "2026-11-25T05:50");
        assertThat(why(today(f, "M-1"), RequirementKind.HAIR_AT_SEAL)).isEmpty();
    }

    /** What was seen yesterday says nothing of a face that was shaven this morning. */
    @Test
    void aBeardOfYesterdayIsOverWithTodaysCheck() {
        Story f = mask().bearded("Kay", "2026-11-24T05:40");
        check(f, "Kay", "M-1", "2026-11-25T05:41", Outcome.PASS, null, Map.of());
        assertThat(why(today(f, "M-1"), RequirementKind.HAIR_AT_SEAL)).isEmpty();
    }

    /** The officer lets hair be where the edge of this hood lies: who answers honestly that there is some is not turned away. */
    @Test
    void anHonestAnswerAboutAcceptedHairBarsNobody() {
        Story f = mask().model("H20C", POWERED_HOOD, "TH2", "170", true)
                .set("C-1", "H20C", "M")
                .trained("Kay", "H20C", "2026-11-24T09:00")
                .examined("C-1", "190", "FI-1", "2026-11-24T10:00")
                .bearded("Kay", "2026-11-25T05:30");
        check(f, "Kay", "C-1", "2026-11-25T05:41", Outcome.FAIL, 100, Map.of());
        assertThat(why(today(f, "C-1"), RequirementKind.HAIR_AT_SEAL)).containsExactly(Why.HAIR_AT_SEAL);
        f.decides("skin-contact.hair-accepted/H20C", "yes", "2026-01-01");
        assertThat(why(today(f, "C-1"), RequirementKind.HAIR_AT_SEAL)).isEmpty();
        assertThat(why(today(f, "C-1"), RequirementKind.PRE_USE_CHECK)).isEmpty();
    }

    /** INDG479: every exercise at least 100, no mean; a result without its figures shows neither. */
    @Test
    void aQuantitativeTestWithoutItsFiguresCountsForNothing() {
        Story f = mask().model("M30", HALF_MASK, "half P3", null, false)
                .set("M-3", "M30", "M")
                .trained("Kay", "M30", "2026-11-24T09:00")
                .fitTested("Kay", "M30", "M", "2026-11-24T09:00");
        assertThat(why(today(f, "M-3"), RequirementKind.FIT_TEST)).containsExactly(Why.NOT_ACCEPTED);
    }

    /** 29 CFR 1910.134(h)(1)(iii): after each use, whoever uses it next. */
    @Test
    void anEmergencySetIsCleanedAfterEachUse() {
        Story p = door.pineBasin()
                .worker("Bo")
                .limit("silica", "0.05", FilterKind.PARTICLE)
                .task("T4", "silica", "0.5")
                .model("P25", POWERED_HOOD, Map.of("us-federal", "powered helmet/hood"), "170", false, 480)
                .set("P-1", "P25", "M")
                .posted("Bo", "T4")
                .on("2026-08-13T12:00")
                .indicator("FI-1", "2026-05-01", "2027-04-30")
                .trained("Bo", "P25", "2026-08-03T09:00")
                .examined("P-1", "190", "FI-1", "2026-08-12T11:00")
                .medical(
                        "Bo",
                        new MedicalOutcome(MedicalOutcome.Result.FIT, Set.of(), null, null, null, false, null, null),
                        "2026-05-01T09:00");
        p.tell(Draft.of(
                new SetData((ModelId) p.id("P25"), "M", "R1", null, true, "main", null),
                p.id("P-1"),
                p.instant("2026-08-01T00:00")));
        assertThat(why(afternoon(p), RequirementKind.CLEAN)).isEmpty();
        p.wore("Bo", "P-1", "T4", "2026-08-12T14:00", "2026-08-12T15:00");
        assertThat(why(afternoon(p), RequirementKind.CLEAN)).containsExactly(Why.USED);
        p.disinfected("P-1", "2026-08-12T16:00");
        assertThat(why(afternoon(p), RequirementKind.CLEAN)).isEmpty();
    }

    private static Answer afternoon(Story p) {
        return p.may("Bo", "T4").with("P-1").from("2026-08-13T13:00", "2026-08-13T14:00");
    }

    private static Answer today(Story f, String set) {
        return f.may("Kay", "T4").with(set).from("2026-11-25T06:00", "2026-11-25T10:00");
    }

    private Story ready() {
        return hood().on("2026-11-24T12:00")
                .trained("Kay", "H20", "2026-11-24T09:00")
                .disinfected("S-201", "2026-11-24T09:00")
                .examined("S-201", "190", "FI-1", "2026-11-24T10:00")
                .issued("S-201", "Kay", "2026-11-24T11:00");
    }

    private Story mask() {
        return hood().model("M20", HALF_MASK, "half P3", null, false)
                .set("M-1", "M20", "M")
                .on("2026-11-25T05:55")
                .trained("Kay", "M20", "2026-11-24T09:00")
                .fitTested("Kay", "M20", "M", "2026-11-24T09:00", "164", "164", "164", "164", "164", "164", "164")
                .examined("M-1", null, "FI-1", "2026-11-24T10:00")
                .issued("M-1", "Kay", "2026-11-25T05:00");
    }

    /** Everything passed but what is said otherwise. */
    private static void check(
            Story f,
            String worker,
            String set,
            String at,
            Outcome skin,
            @Nullable Integer charge,
            Map<PreUseCheck.Item, Outcome> but) {
        Map<PreUseCheck.Item, Outcome> items = new EnumMap<>(PreUseCheck.Item.class);
        Stream.of(PreUseCheck.Item.values()).forEach(item -> items.put(item, Outcome.PASS));
        items.put(PreUseCheck.Item.SKIN_AT_SEAL, skin);
        items.putAll(but);
        BigDecimal reading = new BigDecimal(but.containsKey(PreUseCheck.Item.FLOW) ? "150" : "190");
        f.tell(Draft.of(new PreUseCheck(items, reading, null, Outcome.PASS, charge, null), f.id(set), f.instant(at))
                .item(f.id(worker)));
    }

    private static RecordId hold(Story f, Hold.Why why, String at) {
        return f.record(Draft.of(new Hold(Hold.Step.PLACED, why, "seen"), f.id("S-201"), f.instant(at)));
    }

    private static void release(Story f, RecordId hold, Hold.Why why, String at) {
        f.tell(Draft.of(new Hold(Hold.Step.RELEASED, why, "not seen again"), f.id("S-201"), f.instant(at))
                .item(hold));
    }

    /** Why a requirement stands in the way; nothing where it does not. */
    private static List<Why> why(Answer answer, RequirementKind kind) {
        return answer.reasons().stream()
                .filter(reason -> reason.kind() == kind && reason.result().bars())
                .map(Reason::why)
                .distinct()
                .toList();
    }
}
