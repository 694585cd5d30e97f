package org.hoodkeeper.scenarios;

import static org.hoodkeeper.facts.InterfaceType.HALF_MASK;
import static org.hoodkeeper.rules.RequirementKind.ADEQUACY;
import static org.hoodkeeper.rules.RequirementKind.FIT_TEST;
import static org.hoodkeeper.scenarios.AnswerAssert.assertThat;

import java.math.BigDecimal;
import org.assertj.core.api.Assertions;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.ledger.Draft;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** A fit test covers one model, size and seal revision, and never changes the factor: 29 CFR 1910.134(f)(2); HSG53. */
@ScenarioTest
class OtherVariantTests {

    @Autowired
    Story.Door door;

    private Story ferrow;

    @BeforeEach
    void hanaPassedM20InSizeM() {
        ferrow = door.ferrow()
                .worker("Hana")
                .limit("silica", "0.1", FilterKind.PARTICLE)
                .task("T4", "silica", "0.6")
                .model("M20", HALF_MASK, "half P3", null, false)
                .set("M-1", "M20", "M")
                .set("M-2", "M20", "S")
                .posted("Hana", "T4")
                .on("2026-03-02T12:00")
                .trained("Hana", "M20", "2026-03-02T09:00")
                .fitTested("Hana", "M20", "M", "2026-03-02T10:00", "164", "150", "170", "180", "160", "155", "165")
                .examined("M-1", null, "", "2026-03-02T09:00")
                .examined("M-2", null, "", "2026-03-02T09:00")
                .on("2026-03-03T05:30");
    }

    @Test
    void theSizeThatWasTestedIsGood() {
        assertThat(ferrow.may("Hana", "T4").with("M-1").from("2026-03-03T06:00", "2026-03-03T14:00"))
                .isCleared();
    }

    @Test
    void anotherSizeIsNot() {
        assertThat(ferrow.may("Hana", "T4").with("M-2").from("2026-03-03T06:00", "2026-03-03T14:00"))
                .isNotCleared()
                .onlyBecauseOf(FIT_TEST)
                .because(FIT_TEST, Why.OTHER_VARIANT);
    }

    @Test
    void anotherSealRevisionIsNotUnlessTheOfficerDecidesSo() {
        ModelId model = (ModelId) ferrow.id("M20");
        ferrow.tell(Draft.of(
                new SetData(model, "M", "R2", null, false, "main", null),
                ferrow.id("M-1"),
                ferrow.instant("2026-03-03T05:00")));
        assertThat(ferrow.may("Hana", "T4").with("M-1").from("2026-03-03T06:00", "2026-03-03T14:00"))
                .isNotCleared()
                .onlyBecauseOf(FIT_TEST)
                .because(FIT_TEST, Why.OTHER_VARIANT);
        ferrow.decides("fit-test.accept-revision/M20/R2", "yes", "2026-03-03");
        assertThat(ferrow.may("Hana", "T4").with("M-1").from("2026-03-03T06:00", "2026-03-03T14:00"))
                .isCleared();
    }

    @Test
    void protectionStaysTheAssignedFactorNeverTheFitFactor() {
        Answer answer = ferrow.may("Hana", "T4").with("M-1").from("2026-03-03T06:00", "2026-03-03T14:00");
        Assertions.assertThat(answer.of(ADEQUACY).get(0).details()).contains(new BigDecimal("20"));
        Assertions.assertThat(answer.of(ADEQUACY).get(0).details()).doesNotContain(new BigDecimal("164"));
    }

    @Test
    void aLaterFailureOfTheSameVariantVoidsThePass() {
        ferrow.tell(Draft.of(
                        new FitTest(
                                FitTest.Method.QUANTITATIVE,
                                "ambient particle count",
                                java.util.List.of(),
                                Outcome.FAIL,
                                false,
                                null),
                        ferrow.id("Hana"),
                        ferrow.instant("2026-03-03T04:00"))
                .scope("M20/M/R1"));
        assertThat(ferrow.may("Hana", "T4").with("M-1").from("2026-03-03T06:00", "2026-03-03T14:00"))
                .isNotCleared()
                .because(FIT_TEST, Why.FAILED);
    }

    /** UK: every exercise at least 100 (INDG479, from memory); US: the harmonic mean, here 104.9, (f)(7). */
    @Test
    void theSameSevenNumbersFailInTheUkAndPassInTheUs() {
        String[] numbers = {"90", "110", "105", "100", "120", "110", "105"};
        ferrow.on("2026-03-04T12:00").fitTested("Hana", "M20", "M", "2026-03-04T10:00", numbers);
        assertThat(ferrow.may("Hana", "T4").with("M-1").from("2026-03-05T06:00", "2026-03-05T14:00"))
                .isNotCleared()
                .because(FIT_TEST, Why.FAILED);
        Story pine = door.pineBasin()
                .worker("Hana")
                .limit("silica", "0.05", FilterKind.PARTICLE)
                .task("T4", "silica", "0.3")
                .model("M20", HALF_MASK, java.util.Map.of("us-federal", "air-purifying half"), null, false, null)
                .posted("Hana", "T4")
                .on("2026-03-04T12:00")
                .fitTested("Hana", "M20", "M", "2026-03-04T10:00", numbers);
        Answer answer = pine.may("Hana", "T4").withModel("M20", "M").from("2026-03-05T06:00", "2026-03-05T14:00");
        assertThat(answer).has(FIT_TEST, Result.MET, Why.IN_PLACE);
    }
}
