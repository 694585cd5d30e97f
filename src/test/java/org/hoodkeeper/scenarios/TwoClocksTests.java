package org.hoodkeeper.scenarios;

import static org.hoodkeeper.facts.InterfaceType.HALF_MASK;
import static org.hoodkeeper.facts.InterfaceType.POWERED_HOOD;
import static org.hoodkeeper.rules.RequirementKind.MEDICAL;
import static org.hoodkeeper.rules.RequirementKind.TRAINING;
import static org.hoodkeeper.scenarios.AnswerAssert.assertThat;

import java.util.Set;
import org.assertj.core.api.Assertions;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.ledger.Draft;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** What was true, and what we had been told. */
@ScenarioTest
class TwoClocksTests {

    @Autowired
    Story.Door door;

    private Story ferrow;

    @BeforeEach
    void edWearsAHalfMask() {
        ferrow = door.ferrow()
                .worker("Ed")
                .limit("silica", "0.1", FilterKind.PARTICLE)
                .task("T4", "silica", "0.6")
                .model("M20", HALF_MASK, "half P3", null, false)
                .posted("Ed", "T4")
                .decides("medical.required/HALF_MASK", "yes", "2020-01-01")
                .on("2026-05-01T12:00")
                .trained("Ed", "M20", "2026-05-01T09:00")
                .fitTested("Ed", "M20", "M", "2026-05-01T10:00", "164", "150", "170", "180", "160", "155", "165");
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

    @Test
    void whatWasRecordedLaterWasNotKnownThen() {
        ferrow.on("2026-06-10T12:00").medical("Ed", outcome(MedicalOutcome.Result.FIT), "2026-06-01T09:00");
        assertThat(ferrow.may("Ed", "T4")
                        .withModel("M20", "M")
                        .asKnownAt("2026-06-03T05:00")
                        .from("2026-06-03T06:00", "2026-06-03T12:00"))
                .isNotCleared()
                .because(MEDICAL, Why.MISSING);
        assertThat(ferrow.may("Ed", "T4").withModel("M20", "M").from("2026-06-11T06:00", "2026-06-11T12:00"))
                .isCleared();
    }

    @Test
    void aCorrectionChangesThePastAsKnownNowAndLeavesItAsKnownThen() {
        ferrow.on("2026-05-12T12:00");
        RecordId wrong = ferrow.record(
                Draft.of(outcome(MedicalOutcome.Result.FIT), ferrow.id("Ed"), ferrow.instant("2026-05-12T09:00")));
        ferrow.on("2026-07-20T12:00");
        RecordId right = ferrow.record(Draft.of(
                        outcome(MedicalOutcome.Result.FIT_WITH_LIMITS),
                        ferrow.id("Ed"),
                        ferrow.instant("2026-05-12T09:00"))
                .correcting(wrong, "hoods only was left out"));
        assertThat(ferrow.may("Ed", "T4")
                        .withModel("M20", "M")
                        .asKnownAt("2026-06-03T05:00")
                        .from("2026-06-03T06:00", "2026-06-03T12:00"))
                .isCleared();
        assertThat(ferrow.may("Ed", "T4").withModel("M20", "M").from("2026-06-03T06:00", "2026-06-03T12:00"))
                .isNotCleared()
                .because(MEDICAL, Why.INTERFACE_EXCLUDED);
        Assertions.assertThatThrownBy(() -> ferrow.record(Draft.of(
                                outcome(MedicalOutcome.Result.FIT), ferrow.id("Ed"), ferrow.instant("2026-05-12T09:00"))
                        .correcting(wrong, "again")))
                .isInstanceOfSatisfying(
                        Refused.class,
                        refused -> Assertions.assertThat(refused.code()).isEqualTo("ledger.corrected"));
        Assertions.assertThat(right).isNotEqualTo(wrong);
    }

    @Test
    void anEventMayNotLieAhead() {
        Assertions.assertThatThrownBy(() -> ferrow.tell(Draft.of(
                                new Training(Outcome.PASS, true, null, false, null),
                                ferrow.id("Ed"),
                                ferrow.instant("2026-05-02T09:00"))
                        .scope("M20")))
                .isInstanceOfSatisfying(
                        Refused.class,
                        refused -> Assertions.assertThat(refused.code()).isEqualTo("ledger.future"));
    }

    @Test
    void aMomentOfKnowledgeAheadIsRefused() {
        Assertions.assertThatThrownBy(() -> ferrow.may("Ed", "T4")
                        .withModel("M20", "M")
                        .asKnownAt("2026-05-01T12:30")
                        .from("2026-06-03T06:00", "2026-06-03T12:00"))
                .isInstanceOfSatisfying(
                        Refused.class,
                        refused -> Assertions.assertThat(refused.code()).isEqualTo("question.knownAt.future"));
    }

    @Test
    void anIntervalThatCrossesAChangeOfRulesIsJudgedInPieces() {
        ferrow.medical("Ed", outcome(MedicalOutcome.Result.FIT), "2026-05-01T09:30")
                .decides("training.interval", "P1M", "2026-06-04");
        assertThat(ferrow.may("Ed", "T4").withModel("M20", "M").from("2026-06-03T20:00", "2026-06-04T04:00"))
                .isNotCleared()
                .onlyBecauseOf(TRAINING)
                .isClearedUntil(ferrow.instant("2026-06-04T00:00"), TRAINING);
    }
}
