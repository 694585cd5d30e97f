package org.hoodkeeper.scenarios;

import static org.hoodkeeper.facts.InterfaceType.POWERED_HOOD;
import static org.hoodkeeper.rules.RequirementKind.TRAINING;
import static org.hoodkeeper.scenarios.AnswerAssert.assertThat;

import org.assertj.core.api.Assertions;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.ClearBy;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.facts.Booking;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.Kind;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** Training valid through 30 November; a night shift from 22:00 to 06:00, asked about at 21:40. */
@ScenarioTest
class TrainingExpiresTests {

    @Autowired
    Story.Door door;

    private Story ferrow;

    @BeforeEach
    void gilsTrainingEndsTonight() {
        ferrow = door.ferrow()
                .worker("Gil")
                .limit("silica", "0.1", FilterKind.PARTICLE)
                .task("T4", "silica", "0.6")
                .model("H20", POWERED_HOOD, "TH2", "170", false)
                .posted("Gil", "T4")
                .on("2025-11-30T12:00")
                .trained("Gil", "H20", "2025-11-30T09:00")
                .on("2026-11-30T21:40");
    }

    @Test
    void theWholeShiftIsNotClearedAndTheMomentIsNamed() {
        Answer answer = ferrow.may("Gil", "T4").withModel("H20", "M").from("2026-11-30T22:00", "2026-12-01T06:00");
        assertThat(answer)
                .isNotCleared()
                .onlyBecauseOf(TRAINING)
                .because(TRAINING, Why.LAPSED)
                .since(TRAINING, ferrow.instant("2026-12-01T00:00"))
                .isClearedUntil(ferrow.instant("2026-12-01T00:00"), TRAINING);
        Assertions.assertThat(answer.prefix()).isEqualTo(answer.window());
        Assertions.assertThat(answer.clearBy())
                .anyMatch(act -> act.action() == ClearBy.Action.LEAVE_BEFORE
                        && ferrow.instant("2026-12-01T00:00").equals(act.at()));
    }

    @Test
    void aBookedRefresherIsNamedWithItsTime() {
        ferrow.tell(new Booking(Kind.TRAINING, null), "Gil", "2026-11-30T21:45");
        Answer answer = ferrow.may("Gil", "T4").withModel("H20", "M").from("2026-11-30T22:00", "2026-12-01T06:00");
        Assertions.assertThat(answer.clearBy())
                .anyMatch(act -> act.action() == ClearBy.Action.TRAIN
                        && ferrow.instant("2026-11-30T21:45").equals(act.at()));
    }

    @Test
    void untilMidnightHeStaysCleared() {
        assertThat(ferrow.may("Gil", "T4").withModel("H20", "M").from("2026-11-30T22:00", "2026-12-01T00:00"))
                .isCleared()
                .isDueSoon(TRAINING, "2026-11-30");
    }
}
