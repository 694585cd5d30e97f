package org.hoodkeeper.scenarios;

import static org.hoodkeeper.facts.InterfaceType.FULL_MASK;
import static org.hoodkeeper.rules.RequirementKind.ADEQUACY;
import static org.hoodkeeper.rules.RequirementKind.FIT_TEST;
import static org.hoodkeeper.scenarios.AnswerAssert.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.assertj.core.api.Assertions;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.ClearBy;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Draft;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/**
 * A full mask, factor 50, after a test by taste: it proves a fit factor of 100 at most, 29 CFR 1910.134(f)(6), and is then relied
 * on for no more than 10, as the rule set notes. T6 is at 6 times the limit, T12 at 12, T60 at 60.
 */
@ScenarioTest
class QualitativeFitTests {

    @Autowired
    Story.Door door;

    private Story pine;

    @BeforeEach
    void aMaskTestedByTaste() {
        pine = door.pineBasin()
                .worker("Bo")
                .model("F", FULL_MASK, Map.of("us-federal", "air-purifying full"), null, false, null)
                .limit("silica", "0.05", FilterKind.PARTICLE)
                .task("T6", "silica", "0.3")
                .task("T12", "silica", "0.6")
                .task("T60", "silica", "3")
                .posted("Bo", "T6")
                .posted("Bo", "T12")
                .posted("Bo", "T60")
                .on("2026-08-12T12:00")
                .trained("Bo", "F", "2026-08-03T09:00")
                .medical(
                        "Bo",
                        new MedicalOutcome(
                                MedicalOutcome.Result.FIT, Set.of(), null, null, null, false, null, "Works health"),
                        "2026-05-01T09:00");
        byTaste(Outcome.PASS, "2026-08-01T09:00");
    }

    private void byTaste(Outcome outcome, String at) {
        pine.tell(Draft.of(
                        new FitTest(FitTest.Method.QUALITATIVE, "saccharin", List.of(), outcome, true, "F"),
                        pine.id("Bo"),
                        pine.instant(at))
                .scope("F/M/R1"));
    }

    private Answer at(String task) {
        return pine.may("Bo", task).withModel("F", "M").from("2026-08-12T13:00", "2026-08-12T14:00");
    }

    @Test
    void itIsGoodForTenTimesTheLimit() {
        assertThat(at("T6"))
                .isCleared()
                .has(FIT_TEST, Result.MET, Why.IN_PLACE)
                .has(ADEQUACY, Result.MET, Why.FIT_TEST_COVERED);
    }

    @Test
    void aboveTenAFitTestWithFiguresHelps() {
        Answer short12 = at("T12");
        assertThat(short12).isNotCleared().onlyBecauseOf(ADEQUACY).because(ADEQUACY, Why.FIT_TEST_SHORT);
        Assertions.assertThat(short12.clearBy())
                .filteredOn(action -> action.kind() == ADEQUACY)
                .containsExactly(new ClearBy(ADEQUACY, ClearBy.Action.MEASURE_FIT, Role.TRAINER, null));
        pine.fitTested("Bo", "F", "M", "2026-08-12T09:00", "700", "700", "700", "700", "700", "700", "700");
        assertThat(at("T12")).isCleared().has(ADEQUACY, Result.MET, Why.IN_PLACE);
    }

    @Test
    void aboveTheClassNoFitTestHelps() {
        assertThat(at("T60")).isNotCleared().onlyBecauseOf(ADEQUACY).because(ADEQUACY, Why.FACTOR_SHORT);
    }

    /** Any test of that mask that is still good counts: a newer one by taste takes nothing away. */
    @Test
    void anOlderTestWithFiguresStillProvesMore() {
        pine.fitTested("Bo", "F", "M", "2026-07-01T09:00", "700", "700", "700", "700", "700", "700", "700");
        assertThat(at("T12")).isCleared().has(ADEQUACY, Result.MET, Why.IN_PLACE);
    }

    /** On 1 July 2025, good through 30 June 2026 or a day later however a year is read: over. */
    @Test
    void anOlderTestWithFiguresThatIsOverDoesNot() {
        pine.fitTested("Bo", "F", "M", "2025-07-01T09:00", "700", "700", "700", "700", "700", "700", "700");
        assertThat(at("T6")).isCleared();
        assertThat(at("T12")).isNotCleared().because(ADEQUACY, Why.FIT_TEST_SHORT);
    }

    @Test
    void aTestByTasteThatWasNotPassedBarsWhateverWasBefore() {
        byTaste(Outcome.FAIL, "2026-08-10T09:00");
        assertThat(at("T6")).isNotCleared().onlyBecauseOf(FIT_TEST).because(FIT_TEST, Why.FAILED);
    }
}
