package org.hoodkeeper.scenarios;

import static org.hoodkeeper.facts.InterfaceType.AIRLINE_HOOD;
import static org.hoodkeeper.facts.InterfaceType.POWERED_HOOD;
import static org.hoodkeeper.rules.RequirementKind.AIR_PURIFIER;
import static org.hoodkeeper.rules.RequirementKind.AIR_SUPPLY;
import static org.hoodkeeper.rules.RequirementKind.CLEAN;
import static org.hoodkeeper.rules.RequirementKind.EXAMINATION;
import static org.hoodkeeper.rules.RequirementKind.FILTER;
import static org.hoodkeeper.rules.RequirementKind.FLOW;
import static org.hoodkeeper.rules.RequirementKind.ISSUED;
import static org.hoodkeeper.rules.RequirementKind.KIT_HOLD;
import static org.hoodkeeper.rules.RequirementKind.PARTS;
import static org.hoodkeeper.scenarios.AnswerAssert.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Assessment;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.PurifierTag;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.SupplyMove;
import org.hoodkeeper.facts.WashStep;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.reporting.Board;
import org.hoodkeeper.reporting.BoardRow;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.SiteBoards;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** Unused sets, found sets, shared kit, wrong parts, moved compressors. */
@ScenarioTest
class SetCareTests {

    @Autowired
    Story.Door door;

    @Autowired
    SiteBoards boards;

    private Story ferrow;

    @BeforeEach
    void twoTrainedPeopleAndASet() {
        ferrow = door.ferrow()
                .worker("Kay")
                .worker("Lee")
                .limit("silica", "0.1", FilterKind.PARTICLE)
                .task("T4", "silica", "0.6")
                .model("H20", POWERED_HOOD, "TH2", "170", false)
                .set("S-201", "H20", "M")
                .set("S-207", "H20", "M")
                .posted("Kay", "T4")
                .posted("Lee", "T4")
                .on("2026-08-03T12:00")
                .indicator("FI-1", "2026-05-01", "2027-04-30")
                .trained("Kay", "H20", "2026-08-03T09:00")
                .trained("Lee", "H20", "2026-08-03T09:00");
    }

    /** ACoP L5, 181 and 182, restated: monthly; used only occasionally, before the next use and never over three months. */
    @Test
    void aSetUnusedForTenWeeksIsExaminedBeforeUseAndAtThreeMonthsOverdue() {
        ferrow.examined("S-201", "190", "FI-1", "2026-08-03T10:00").on("2026-10-12T05:30");
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-10-12T06:00", "2026-10-12T12:00"))
                .isNotCleared()
                .because(EXAMINATION, Why.DUE_BEFORE_USE)
                .because(FLOW, Why.LAPSED);
        ferrow.on("2026-11-04T05:30");
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-11-03T06:00", "2026-11-03T12:00"))
                .because(EXAMINATION, Why.DUE_BEFORE_USE);
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-11-04T06:00", "2026-11-04T12:00"))
                .because(EXAMINATION, Why.OVERDUE_UNUSED);
    }

    @Test
    void aFoundSetIsNotReadyBeforeItIsCleanedAndExamined() {
        ferrow.examined("S-201", "190", "FI-1", "2026-08-03T10:00")
                .on("2026-08-10T12:00")
                .claims("S-201", Custody.Claim.MISSING, null, "2026-08-07T10:00");
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-08-10T13:00", "2026-08-10T15:00"))
                .because(KIT_HOLD, Why.SET_MISSING);
        ferrow.claims("S-201", Custody.Claim.FOUND, null, "2026-08-10T11:00");
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-08-10T13:00", "2026-08-10T15:00"))
                .isNotCleared()
                .onlyBecauseOf(EXAMINATION, FLOW, CLEAN)
                .because(EXAMINATION, Why.FOUND)
                .because(CLEAN, Why.FOUND);
        ferrow.on("2026-08-10T12:50")
                .disinfected("S-201", "2026-08-10T12:10")
                .examined("S-201", "190", "FI-1", "2026-08-10T12:40");
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-08-10T13:00", "2026-08-10T15:00"))
                .isCleared();
    }

    /** DGUV Regel 112-190 speaks of a week of use: issued nine days after its clean, a set may be worn as it was cleared. */
    @Test
    void aWeekOnTheShelfIsNoWeekOfUse() {
        ferrow.on("2026-11-11T12:00")
                .disinfected("S-201", "2026-11-11T09:00")
                .examined("S-201", "190", "FI-1", "2026-11-11T10:00")
                .issued("S-201", "Kay", "2026-11-11T11:00");
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-11-20T06:00", "2026-11-20T12:00"))
                .isCleared();
        ferrow.on("2026-11-20T13:00").wore("Kay", "S-201", "T4", "2026-11-20T06:00", "2026-11-20T12:00");
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-11-20T14:00", "2026-11-20T18:00"))
                .isCleared();
        ferrow.on("2026-11-27T13:00").examined("S-201", "190", "FI-1", "2026-11-27T10:00");
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-11-27T14:00", "2026-11-27T18:00"))
                .isCleared();
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-11-27T20:00", "2026-11-28T02:00"))
                .isNotCleared()
                .onlyBecauseOf(CLEAN)
                .because(CLEAN, Why.LAPSED)
                .since(CLEAN, ferrow.instant("2026-11-28T00:00"));
    }

    /** 29 CFR 1910.134(h)(1)(ii): clean and disinfect before another person wears it. */
    @Test
    void aWipeNeverCoversAChangeOfWearer() {
        ferrow.on("2026-11-20T12:00")
                .disinfected("S-201", "2026-11-20T09:00")
                .examined("S-201", "190", "FI-1", "2026-11-20T10:00")
                .disinfected("S-207", "2026-11-20T09:00")
                .examined("S-207", "190", "FI-1", "2026-11-20T10:00")
                .issued("S-201", "Kay", "2026-11-20T11:00")
                .on("2026-11-25T18:00")
                .wore("Kay", "S-201", "T4", "2026-11-25T13:00", "2026-11-25T17:50")
                .wiped("S-201", "2026-11-25T17:55")
                .claims("S-201", Custody.Claim.RETURNED, true, "2026-11-25T17:57");
        var answer = ferrow.may("Lee", "T4").with("S-201").from("2026-11-25T18:05", "2026-11-25T20:00");
        assertThat(answer).isNotCleared().onlyBecauseOf(CLEAN).because(CLEAN, Why.WIPED_ONLY);
        org.assertj.core.api.Assertions.assertThat(answer.alternatives())
                .anyMatch(way -> ferrow.id("S-207").equals(way.set()));
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-11-26T06:00", "2026-11-26T12:00"))
                .isCleared()
                .has(ISSUED, Result.TO_DO_AT_START, Why.NOT_ISSUED);
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-11-27T20:00", "2026-11-28T02:00"))
                .isNotCleared()
                .onlyBecauseOf(CLEAN)
                .because(CLEAN, Why.LAPSED)
                .since(CLEAN, ferrow.instant("2026-11-28T00:00"));
    }

    /** Twelve sets of another size come before it by label, and Kay is not trained on the model that is asked about. */
    @Test
    void aReadySetOfTheSizeAskedForIsFoundBehindAllOthers() {
        for (int i = 10; i < 22; i++) {
            ferrow.set("A-" + i, "H20", "L");
        }
        ferrow.model("H21", InterfaceType.POWERED_HOOD, "TH2", "170", false)
                .on("2026-11-20T12:00")
                .disinfected("S-207", "2026-11-20T09:00")
                .examined("S-207", "190", "FI-1", "2026-11-20T10:00");
        Answer answer = ferrow.may("Kay", "T4").withModel("H21", "M").from("2026-11-20T13:00", "2026-11-20T15:00");
        assertThat(answer).isNotCleared();
        org.assertj.core.api.Assertions.assertThat(answer.alternatives())
                .extracting(Answer.Alternative::set)
                .containsExactly((SetId) ferrow.id("S-207"));
    }

    /** Kay is trained on the H20 alone: fifteen sets of a model that Kay may not wear come before the one that will do. */
    @Test
    void aSetOfAModelThatThePersonMayNotWearHidesNone() {
        ferrow.model("H21", InterfaceType.POWERED_HOOD, "TH2", "170", false);
        for (int i = 10; i < 25; i++) {
            ferrow.set("A-" + i, "H21", "M");
        }
        ferrow.on("2026-11-20T12:00")
                .disinfected("S-207", "2026-11-20T09:00")
                .examined("S-207", "190", "FI-1", "2026-11-20T10:00");
        Answer answer = ferrow.may("Kay", "T4").with("S-201").from("2026-11-20T13:00", "2026-11-20T15:00");
        assertThat(answer).isNotCleared();
        org.assertj.core.api.Assertions.assertThat(answer.alternatives())
                .extracting(Answer.Alternative::set)
                .containsExactly((SetId) ferrow.id("S-207"));
    }

    /** Of other models and sizes, for emergencies, unready or ready: the ways are what asking about each of them gives. */
    @Test
    void theWaysAreTheFirstThreeThatWouldDoAskedOneByOne() {
        ferrow.model("H21", InterfaceType.POWERED_HOOD, "TH2", "170", false);
        List<String> labels = new ArrayList<>();
        for (int i = 0; i < 14; i++) {
            String label = String.format("B-%02d", i);
            labels.add(label);
            ferrow.set(label, i % 5 == 1 ? "H21" : "H20", i % 7 == 2 ? "L" : "M");
        }
        ferrow.on("2026-11-20T12:00")
                .record(Draft.of(
                        new SetData((ModelId) ferrow.id("H20"), "M", "R1", null, true, "main", null),
                        ferrow.id("B-00"),
                        ferrow.instant("2026-11-19T12:00")));
        for (String ready : List.of("B-00", "B-02", "B-03", "B-08", "B-09", "B-10", "B-12")) {
            ferrow.disinfected(ready, "2026-11-20T09:00").examined(ready, "190", "FI-1", "2026-11-20T10:00");
        }
        List<String> wouldDo = labels.stream()
                .filter(label -> ferrow.may("Kay", "T4")
                                .with(label)
                                .from("2026-11-20T13:00", "2026-11-20T15:00")
                                .verdict()
                        != Verdict.NOT_CLEARED)
                .toList();
        org.assertj.core.api.Assertions.assertThat(wouldDo)
                .as("asked one by one, whatever their size, and those for emergencies")
                .containsExactly("B-00", "B-02", "B-03", "B-08", "B-09", "B-10", "B-12");
        Answer refused = ferrow.may("Kay", "T4").with("S-201").from("2026-11-20T13:00", "2026-11-20T15:00");
        assertThat(refused).isNotCleared();
        org.assertj.core.api.Assertions.assertThat(refused.alternatives())
                .extracting(Answer.Alternative::label)
                .containsExactly("B-03", "B-08", "B-10");
    }

    /** 29 CFR 1910.134, appendix B-2: taken apart, washed, disinfected, rinsed, dried, and only then put together and tested. */
    @Test
    void aSetInAWashIsNobodysUntilItIsDryAndMeasured() {
        ferrow.disinfected("S-207", "2026-08-03T08:00")
                .examined("S-207", "190", "FI-1", "2026-08-03T08:30")
                .on("2026-08-03T13:00")
                .stripped("A", "2026-08-03T12:00", "S-201", "S-207");
        assertThat(ferrow.may("Kay", "T4").with("S-207").from("2026-08-03T13:30", "2026-08-03T15:00"))
                .isNotCleared()
                .onlyBecauseOf(CLEAN)
                .because(CLEAN, Why.IN_WASH);
        ferrow.examined("S-201", "190", "FI-1", "2026-08-03T12:30");
        Answer other = ferrow.may("Kay", "T4").with("S-201").from("2026-08-03T13:30", "2026-08-03T15:00");
        assertThat(other).isNotCleared().onlyBecauseOf(CLEAN).because(CLEAN, Why.IN_WASH);
        org.assertj.core.api.Assertions.assertThat(other.alternatives())
                .as("the other one lies in the same basket")
                .isEmpty();
        // what was known before it was told, and what was so before it was done
        assertThat(ferrow.may("Kay", "T4")
                        .with("S-207")
                        .asKnownAt("2026-08-03T12:59")
                        .from("2026-08-03T13:00", "2026-08-03T15:00"))
                .isCleared();
        assertThat(ferrow.may("Kay", "T4").with("S-207").from("2026-08-03T11:00", "2026-08-03T12:00"))
                .has(CLEAN, Result.MET, Why.IN_PLACE);
        assertThat(ferrow.may("Kay", "T4").with("S-207").from("2026-08-03T11:00", "2026-08-03T12:30"))
                .because(CLEAN, Why.IN_WASH)
                .since(CLEAN, ferrow.instant("2026-08-03T12:00"));

        ferrow.on("2026-08-03T14:30")
                .washStep("A", WashStep.Step.DRY, "2026-08-03T14:00")
                .disinfected("S-207", "2026-08-03T14:00");
        assertThat(ferrow.may("Kay", "T4").with("S-207").from("2026-08-03T14:40", "2026-08-03T16:00"))
                .onlyBecauseOf(FLOW)
                .because(FLOW, Why.UNDONE);
        assertThat(ferrow.may("Kay", "T4")
                        .with("S-207")
                        .asKnownAt("2026-08-03T13:30")
                        .from("2026-08-03T14:30", "2026-08-03T16:00"))
                .because(CLEAN, Why.IN_WASH);
        ferrow.flowChecked("S-207", "188", "FI-1", "2026-08-03T14:10");
        assertThat(ferrow.may("Kay", "T4").with("S-207").from("2026-08-03T14:40", "2026-08-03T16:00"))
                .isCleared();
    }

    /** Broken off: nothing of it counts, and the set was in pieces. Left for a week: it is washed again, whatever the board shows. */
    @Test
    void aWashThatWasBrokenOffOrLeftMakesNoSetReady() {
        ferrow.disinfected("S-201", "2026-08-03T08:00")
                .examined("S-201", "190", "FI-1", "2026-08-03T08:30")
                .disinfected("S-207", "2026-08-03T08:00")
                .examined("S-207", "190", "FI-1", "2026-08-03T08:30")
                .on("2026-08-03T14:30")
                .stripped("A", "2026-08-03T12:00", "S-201")
                .stripped("B", "2026-08-03T12:00", "S-207")
                .washStep("A", WashStep.Step.BROKEN_OFF, "2026-08-03T12:20");
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-08-03T15:00", "2026-08-03T16:00"))
                .isNotCleared()
                .onlyBecauseOf(FLOW)
                .because(FLOW, Why.UNDONE);
        ferrow.on("2026-08-10T12:00").flowChecked("S-207", "190", "FI-1", "2026-08-10T11:00");
        assertThat(ferrow.may("Kay", "T4").with("S-207").from("2026-08-10T12:30", "2026-08-10T14:00"))
                .isNotCleared()
                .onlyBecauseOf(CLEAN)
                .because(CLEAN, Why.LEFT_IN_WASH);
        ferrow.on("2026-08-10T15:00")
                .disinfected("S-207", "2026-08-10T14:00")
                .flowChecked("S-207", "190", "FI-1", "2026-08-10T14:30");
        assertThat(ferrow.may("Kay", "T4").with("S-207").from("2026-08-10T15:30", "2026-08-10T17:00"))
                .isCleared();
    }

    /** The board of the day says what the question says. */
    @Test
    void theBoardShowsThatASetInHandLiesInAWash() {
        ferrow.disinfected("S-201", "2026-08-03T08:00")
                .examined("S-201", "190", "FI-1", "2026-08-03T08:30")
                .issued("S-201", "Kay", "2026-08-03T09:00")
                .on("2026-08-03T12:10");
        org.assertj.core.api.Assertions.assertThat(board("2026-08-03T12:10"))
                .extracting(glance -> glance.verdict())
                .containsExactly(Verdict.CLEARED);
        ferrow.stripped("A", "2026-08-03T12:10", "S-201");
        org.assertj.core.api.Assertions.assertThat(board("2026-08-03T12:11"))
                .extracting(glance -> glance.first().why())
                .containsExactly(Why.IN_WASH);
    }

    private java.util.List<Assessment.Glance> board(String at) {
        ferrow.on(at);
        Board board = SiteBinding.in(
                ferrow.site().id(), () -> boards.of(ferrow.officer(), Moment.of(null, false, ferrow.instant(at))));
        return board.rows().stream()
                .filter(row -> row.worker().name().equals("Kay"))
                .map(BoardRow::glance)
                .toList();
    }

    @Test
    void aSetReturnedUnwornIsAsCleanAsBefore() {
        ferrow.examined("S-201", "190", "FI-1", "2026-08-03T10:00")
                .issued("S-201", "Kay", "2026-08-03T11:00")
                .claims("S-201", Custody.Claim.RETURNED, false, "2026-08-03T11:30");
        assertThat(ferrow.may("Lee", "T4").with("S-201").from("2026-08-03T13:00", "2026-08-03T15:00"))
                .isCleared();
    }

    /** 29 CFR 1910.134(h)(4)(i): approved parts, fitted by trained people. */
    @Test
    void aPassingFlowDoesNotExcuseAWrongPart() {
        ferrow.tell(part("V-OTHER", true, "2026-08-03T09:00")).examined("S-201", "190", "FI-1", "2026-08-03T10:00");
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-08-03T13:00", "2026-08-03T15:00"))
                .isNotCleared()
                .onlyBecauseOf(PARTS)
                .because(PARTS, Why.PART_NOT_APPROVED);
        ferrow.tell(part("V-H20", false, "2026-08-03T11:00")).flowChecked("S-201", "188", "FI-1", "2026-08-03T11:10");
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-08-03T13:00", "2026-08-03T15:00"))
                .isNotCleared()
                .onlyBecauseOf(PARTS)
                .because(PARTS, Why.FITTED_UNTRAINED);
    }

    private Draft part(String code, boolean trained, String at) {
        return Draft.of(
                        new PartChange(code, null, null, LocalDate.parse("2026-01-01"), trained, null),
                        ferrow.id("S-201"),
                        ferrow.instant(at))
                .scope("visor");
    }

    /** A part change undoes the proof of flow; an instrument out of date gives none. */
    @Test
    void flowIsProvenAnewAfterAPartChangeWithAValidInstrument() {
        ferrow.examined("S-201", "190", "FI-1", "2026-08-03T08:00").tell(part("V-H20", true, "2026-08-03T09:00"));
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-08-03T13:00", "2026-08-03T15:00"))
                .onlyBecauseOf(FLOW)
                .because(FLOW, Why.UNDONE);
        ferrow.indicator("FI-OLD", "2025-05-01", "2026-04-30")
                .flowChecked("S-201", "188", "FI-OLD", "2026-08-03T10:00");
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-08-03T13:00", "2026-08-03T15:00"))
                .onlyBecauseOf(FLOW)
                .because(FLOW, Why.NOT_ACCEPTED);
        ferrow.flowChecked("S-201", "169.9", "FI-1", "2026-08-03T10:30");
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-08-03T13:00", "2026-08-03T15:00"))
                .onlyBecauseOf(FLOW)
                .because(FLOW, Why.FAILED);
        ferrow.flowChecked("S-201", "170", "FI-1", "2026-08-03T10:40");
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-08-03T13:00", "2026-08-03T15:00"))
                .isCleared();
    }

    /** HSE, restated: at least every three months; re-test on every move is the safe rule. */
    @Test
    void aMovedCompressorNeedsANewTestAlthoughTheOldOneIsInDate() {
        ferrow.limit("isocyanate", "0.02")
                .task("T3", "isocyanate", "0.2", AIRLINE_HOOD)
                .model("A40", AIRLINE_HOOD, "14594-3 hood", "140", false)
                .supply("C-1")
                .set("A-1", "A40", "M", "C-1")
                .posted("Kay", "T3")
                .trained("Kay", "A40", "2026-08-03T09:00")
                .on("2026-08-12T12:00")
                .tell(air(), "C-1", "2026-08-12T10:00")
                .on("2026-09-02T12:00")
                .examined("A-1", "190", "FI-1", "2026-09-02T09:00")
                .tell(new SupplyMove("near the loading bay"), "C-1", "2026-09-02T10:00");
        assertThat(ferrow.may("Kay", "T3").with("A-1").from("2026-09-03T06:00", "2026-09-03T10:00"))
                .isNotCleared()
                .onlyBecauseOf(AIR_SUPPLY)
                .because(AIR_SUPPLY, Why.MOVED);
        ferrow.on("2026-09-04T15:00").tell(air(), "C-1", "2026-09-04T14:30");
        assertThat(ferrow.may("Kay", "T3").with("A-1").from("2026-09-04T15:30", "2026-09-04T18:00"))
                .isCleared();
        ferrow.on("2026-11-13T05:00").examined("A-1", "190", "FI-1", "2026-11-13T04:00");
        assertThat(ferrow.may("Kay", "T3").with("A-1").from("2026-11-13T06:00", "2026-11-13T10:00"))
                .isCleared()
                .has(AIR_SUPPLY, Result.MET, Why.IN_PLACE);
        ferrow.on("2026-12-05T05:00").examined("A-1", "190", "FI-1", "2026-12-05T04:00");
        assertThat(ferrow.may("Kay", "T3").with("A-1").from("2026-12-05T06:00", "2026-12-05T10:00"))
                .isNotCleared()
                .onlyBecauseOf(AIR_SUPPLY)
                .because(AIR_SUPPLY, Why.LAPSED);
        assertThat(ferrow.may("Kay", "T3").withModel("H20", "M").from("2026-12-05T06:00", "2026-12-05T10:00"))
                .because(FILTER, Why.AIR_FED_ONLY);
    }

    /** 29 CFR 1910.134(i)(5)(iii) and (iv), and as the stricter reading in the UK: overdue stops everybody who draws from it. */
    @Test
    void aPurifierThatIsOverdueStopsWhoeverDrawsFromThatSupply() {
        ferrow.limit("isocyanate", "0.02")
                .task("T3", "isocyanate", "0.2", AIRLINE_HOOD)
                .model("A40", AIRLINE_HOOD, "14594-3 hood", "140", false)
                .supply("C-1")
                .supply("C-2")
                .set("A-1", "A40", "M", "C-1")
                .set("A-2", "A40", "M", "C-2")
                .posted("Kay", "T3")
                .trained("Kay", "A40", "2026-08-03T09:00")
                .on("2026-08-12T12:00")
                .tell(air(), "C-1", "2026-08-12T10:00")
                .tell(air(), "C-2", "2026-08-12T10:00")
                .tell(new PurifierTag("P. Smith", LocalDate.parse("2026-08-20")), "C-1", "2026-08-12T11:00")
                .examined("A-1", "190", "FI-1", "2026-08-12T11:00")
                .examined("A-2", "190", "FI-1", "2026-08-12T11:00");
        assertThat(ferrow.may("Kay", "T3").with("A-1").from("2026-08-20T20:00", "2026-08-21T00:00"))
                .isCleared()
                .has(AIR_PURIFIER, Result.MET, Why.IN_PLACE);
        Answer over = ferrow.may("Kay", "T3").with("A-1").from("2026-08-20T20:00", "2026-08-21T02:00");
        assertThat(over)
                .isNotCleared()
                .onlyBecauseOf(AIR_PURIFIER)
                .because(AIR_PURIFIER, Why.LAPSED)
                .since(AIR_PURIFIER, ferrow.instant("2026-08-21T00:00"));
        org.assertj.core.api.Assertions.assertThat(over.of(AIR_PURIFIER))
                .filteredOn(reason -> reason.result() == Result.NOT_MET)
                .extracting(reason -> reason.demand().code())
                .containsOnly("uk.air-purifier");
        assertThat(ferrow.may("Kay", "T3").with("A-2").from("2026-08-20T20:00", "2026-08-21T02:00"))
                .isCleared()
                .has(AIR_PURIFIER, Result.NOT_APPLICABLE, Why.NO_TAG);
        ferrow.on("2026-08-21T09:00")
                .tell(new PurifierTag("P. Smith", LocalDate.parse("2026-11-20")), "C-1", "2026-08-21T08:00");
        assertThat(ferrow.may("Kay", "T3").with("A-1").from("2026-08-21T10:00", "2026-08-21T14:00"))
                .isCleared();
    }

    private static AirTest air() {
        return new AirTest(
                Outcome.PASS,
                "EN 12021:2014",
                new BigDecimal("20.9"),
                new BigDecimal("1"),
                new BigDecimal("420"),
                new BigDecimal("0.1"),
                new BigDecimal("-14"),
                null,
                null,
                null,
                null);
    }
}
