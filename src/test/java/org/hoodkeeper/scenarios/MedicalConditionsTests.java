package org.hoodkeeper.scenarios;

import static org.hoodkeeper.facts.InterfaceType.AIRLINE_HOOD;
import static org.hoodkeeper.facts.InterfaceType.HALF_MASK;
import static org.hoodkeeper.facts.InterfaceType.POWERED_HOOD;
import static org.hoodkeeper.rules.RequirementKind.MEDICAL;
import static org.hoodkeeper.rules.RequirementKind.SYMPTOM_REVIEW;
import static org.hoodkeeper.scenarios.AnswerAssert.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Set;
import org.assertj.core.api.Assertions;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.ClearBy;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.MeasuredCondition;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.Posting;
import org.hoodkeeper.facts.SymptomReport;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;

/** Ike: hoods only, at most 4 h a shift, WBGT at most 28 °C; he has worn a hood from 07:30 to 09:30. */
@ScenarioTest
class MedicalConditionsTests {

    @Autowired
    Story.Door door;

    private Story ferrow;

    @BeforeEach
    void ikeHasWornTwoHours() {
        ferrow = door.ferrow()
                .worker("Ike")
                .limit("silica", "0.1", FilterKind.PARTICLE)
                .task("T2", "silica", "2.4")
                .model("H40", POWERED_HOOD, "TH3", "180", false)
                .model("M20", HALF_MASK, "half P3", null, false)
                .set("S-40", "H40", "M")
                .posted("Ike", "T2")
                .on("2026-06-01T12:00")
                .trained("Ike", "H40", "2026-06-01T09:00")
                .medical(
                        "Ike",
                        new MedicalOutcome(
                                MedicalOutcome.Result.FIT_WITH_LIMITS,
                                Set.of(POWERED_HOOD, AIRLINE_HOOD),
                                240,
                                new BigDecimal("28"),
                                null,
                                false,
                                null,
                                "Works health"),
                        "2026-06-01T10:00")
                .on("2026-06-02T09:40")
                .wore("Ike", "S-40", "T2", "2026-06-02T07:30", "2026-06-02T09:30");
    }

    private Answer plan(String until) {
        return ferrow.may("Ike", "T2").withModel("H40", "M").from("2026-06-02T10:00", until);
    }

    @Test
    void sixHoursAreTooLongAndTheFirstTwoAreNamed() {
        Answer answer = plan("2026-06-02T16:00");
        assertThat(answer)
                .isNotCleared()
                .onlyBecauseOf(MEDICAL)
                .because(MEDICAL, Why.WEAR_LIMIT)
                .isClearedUntil(ferrow.instant("2026-06-02T12:00"), MEDICAL);
        Assertions.assertThat(answer.prefix().conditions()).isTrue();
    }

    @Test
    void twoHoursAreClearedWithConditions() {
        assertThat(plan("2026-06-02T12:00"))
                .isClearedWithConditions()
                .has(MEDICAL, Result.MET_WITH_CONDITIONS, Why.WEAR_LIMIT)
                .has(MEDICAL, Result.MET_WITH_CONDITIONS, Why.HEAT_LIMIT);
    }

    @Test
    void aReadingAboveTheLimitBars() {
        ferrow.tell(
                new MeasuredCondition(MeasuredCondition.Quantity.WBGT, new BigDecimal("29")), "T2", "2026-06-02T09:35");
        assertThat(plan("2026-06-02T12:00")).isNotCleared().because(MEDICAL, Why.HEAT_LIMIT);
    }

    @Test
    void aReadingAtTheLimitDoesNot() {
        ferrow.tell(
                new MeasuredCondition(MeasuredCondition.Quantity.WBGT, new BigDecimal("28")), "T2", "2026-06-02T09:35");
        assertThat(plan("2026-06-02T12:00")).isClearedWithConditions();
    }

    /** Midnight cools nothing: a reading taken late in the shift still counts after it. */
    @Test
    void aReadingFromBeforeMidnightStillBarsTheNightShift() {
        ferrow.on("2026-06-03T00:05")
                .tell(
                        new MeasuredCondition(MeasuredCondition.Quantity.WBGT, new BigDecimal("29")),
                        "T2",
                        "2026-06-02T23:50");
        assertThat(ferrow.may("Ike", "T2").withModel("H40", "M").from("2026-06-03T00:10", "2026-06-03T02:00"))
                .isNotCleared()
                .because(MEDICAL, Why.HEAT_LIMIT);
        assertThat(ferrow.may("Ike", "T2").withModel("H40", "M").from("2026-06-03T08:00", "2026-06-03T09:00"))
                .isClearedWithConditions();
    }

    /** What ends first is what the supervisor is told to leave before. */
    @Test
    void theSupervisorBringsHimOutAtTheLimitNotAtALaterEnd() {
        ferrow.task("T5", "silica", "2.4")
                .tell(Draft.of(new Posting(Posting.Change.POSTED), ferrow.id("Ike"), ferrow.instant("2026-06-02T06:00"))
                        .item(ferrow.id("T5"))
                        .until(ferrow.instant("2026-06-02T13:00")));
        Answer seen = ferrow.may("Ike", "T5")
                .withModel("H40", "M")
                .seenBy(ferrow.viewer(Role.SUPERVISOR))
                .from("2026-06-02T10:00", "2026-06-02T16:00");
        assertThat(seen).isNotCleared().isClearedUntil(ferrow.instant("2026-06-02T12:00"), MEDICAL);
        Assertions.assertThat(seen.clearBy())
                .filteredOn(action -> action.action() == ClearBy.Action.LEAVE_BEFORE)
                .extracting(ClearBy::at)
                .containsExactly(ferrow.instant("2026-06-02T12:00"));
        // the limit is shown to supervise it, so what clears it is shown too
        Assertions.assertThat(seen.clearBy())
                .filteredOn(action -> action.action() != ClearBy.Action.LEAVE_BEFORE)
                .filteredOn(action -> action.kind() == MEDICAL)
                .containsExactly(new ClearBy(MEDICAL, ClearBy.Action.REST, Role.SUPERVISOR, null));
    }

    /** A condition behind the wall does not show through an alternative. */
    @Test
    void anAlternativeShowsTheStorekeeperNoCondition() {
        ferrow.indicator("FI-1", "2026-05-01", "2027-04-30")
                .examined("S-40", "195", "FI-1", "2026-06-02T09:35")
                .disinfected("S-40", "2026-06-02T09:32");
        Answer seen = ferrow.may("Ike", "T2")
                .withModel("M20", "M")
                .seenBy(ferrow.viewer(Role.STOREKEEPER))
                .from("2026-06-02T10:00", "2026-06-02T11:00");
        Assertions.assertThat(seen.alternatives())
                .extracting(Answer.Alternative::verdict)
                .containsExactly(Verdict.CLEARED);
    }

    @Test
    void aMaskIsExcluded() {
        assertThat(ferrow.may("Ike", "T2").withModel("M20", "M").from("2026-06-02T10:00", "2026-06-02T11:00"))
                .isNotCleared()
                .because(MEDICAL, Why.INTERFACE_EXCLUDED);
    }

    @Test
    void theSupervisorSeesTheThreeLimitsWithoutRecordOrRule() {
        Answer seen = ferrow.may("Ike", "T2")
                .withModel("H40", "M")
                .seenBy(ferrow.viewer(Role.SUPERVISOR))
                .from("2026-06-02T10:00", "2026-06-02T12:00");
        assertThat(seen)
                .isClearedWithConditions()
                .has(MEDICAL, Result.MET_WITH_CONDITIONS, Why.WEAR_LIMIT)
                .has(MEDICAL, Result.MET_WITH_CONDITIONS, Why.HEAT_LIMIT)
                .has(MEDICAL, Result.MET, Why.INTERFACES_ONLY);
        Assertions.assertThat(seen.of(MEDICAL)).allMatch(reason -> reason.record() == null && reason.demand() == null);
    }

    @Test
    void theStorekeeperSeesYesOrNoAlone() {
        Answer yes = ferrow.may("Ike", "T2")
                .withModel("H40", "M")
                .seenBy(ferrow.viewer(Role.STOREKEEPER))
                .from("2026-06-02T10:00", "2026-06-02T12:00");
        assertThat(yes).isCleared();
        Assertions.assertThat(yes.of(MEDICAL)).isEmpty();
        Answer limitReached = ferrow.may("Ike", "T2")
                .withModel("H40", "M")
                .seenBy(ferrow.viewer(Role.STOREKEEPER))
                .from("2026-06-02T10:00", "2026-06-02T16:00");
        assertThat(limitReached).isNotCleared().because(MEDICAL, Why.ASK_OFFICER);
        Assertions.assertThat(limitReached.of(MEDICAL)).hasSize(1);
        Assertions.assertThat(limitReached.of(MEDICAL).get(0).details()).isEmpty();
        Assertions.assertThat(limitReached.of(MEDICAL).get(0).record()).isNull();
        Assertions.assertThat(limitReached.prefix()).isNull();
    }

    /** Review day 26 November, asked the day before: a limit makes nobody forget it, whatever the limit says that day. */
    @ParameterizedTest
    @CsvSource(
            nullValues = "none",
            value = {
                "none, none, none, false",
                "none, 28, none, false",
                "240, none, none, false",
                "none, none, MODERATE, false",
                "none, none, LIGHT, false",
                "none, none, none, true",
                "240, 28, MODERATE, true"
            })
    void theReviewIsDueSoonWithLimitsAsWithout(
            @Nullable Integer minutes,
            @Nullable BigDecimal wbgt,
            MedicalOutcome.@Nullable WorkRate rate,
            boolean alone) {
        ferrow.on("2026-11-24T12:00")
                .medical(
                        "Ike",
                        new MedicalOutcome(
                                MedicalOutcome.Result.FIT_WITH_LIMITS,
                                Set.of(),
                                minutes,
                                wbgt,
                                rate,
                                alone,
                                LocalDate.parse("2026-11-26"),
                                "Works health"),
                        "2026-11-01T09:00");
        Answer answer = ferrow.may("Ike", "T2").withModel("H40", "M").from("2026-11-25T06:00", "2026-11-25T08:00");
        assertThat(answer).isDueSoon(MEDICAL, "2026-11-26");
        Assertions.assertThat(answer.of(MEDICAL))
                .filteredOn(reason -> !reason.result().bars() && reason.why() != Why.WEAR_LIMIT)
                .allMatch(reason -> ferrow.instant("2026-11-27T00:00").equals(reason.goodUntil()));
        Answer storekeeper = ferrow.may("Ike", "T2")
                .withModel("H40", "M")
                .seenBy(ferrow.viewer(Role.STOREKEEPER))
                .from("2026-11-25T06:00", "2026-11-25T08:00");
        Assertions.assertThat(storekeeper.dueSoon()).isNull();
    }

    /** What is over is no longer due soon. */
    @Test
    void anOutcomeWithLimitsThatIsOverIsNotDueSoon() {
        ferrow.on("2026-11-24T12:00")
                .medical(
                        "Ike",
                        new MedicalOutcome(
                                MedicalOutcome.Result.FIT_WITH_LIMITS,
                                Set.of(),
                                null,
                                new BigDecimal("28"),
                                null,
                                false,
                                LocalDate.parse("2026-11-26"),
                                "Works health"),
                        "2026-11-01T09:00");
        Answer over = ferrow.may("Ike", "T2").withModel("H40", "M").from("2026-11-27T06:00", "2026-11-27T08:00");
        assertThat(over).isNotCleared().because(MEDICAL, Why.LAPSED);
        Assertions.assertThat(over.dueSoon()).isNull();
    }

    /** 29 CFR 1910.134(e)(7)(i): a report of symptoms calls for another evaluation. */
    @Test
    void aReportOfSymptomsBarsUntilItIsReviewed() {
        ferrow.tell(new SymptomReport(SymptomReport.Step.REPORTED, "short of breath"), "Ike", "2026-06-02T09:36");
        assertThat(plan("2026-06-02T12:00")).isNotCleared().because(SYMPTOM_REVIEW, Why.REVIEW_OPEN);
        Answer storekeeper = ferrow.may("Ike", "T2")
                .withModel("H40", "M")
                .seenBy(ferrow.viewer(Role.STOREKEEPER))
                .from("2026-06-02T10:00", "2026-06-02T12:00");
        Assertions.assertThat(storekeeper.of(SYMPTOM_REVIEW)).isEmpty();
        assertThat(storekeeper).isNotCleared().because(MEDICAL, Why.ASK_OFFICER);
    }
}
