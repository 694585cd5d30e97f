package org.hoodkeeper.scenarios;

import static org.hoodkeeper.facts.InterfaceType.HALF_MASK;
import static org.hoodkeeper.rules.RequirementKind.FIT_TEST;
import static org.hoodkeeper.scenarios.AnswerAssert.assertThat;

import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.facts.FilterKind;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** A fit test of 29 February, good for 24 calendar months: the last day is 28 February. Dates by java.time. */
@ScenarioTest
class LeapDayTests {

    @Autowired
    Story.Door door;

    private Story ferrow;

    @BeforeEach
    void anaPassedOnLeapDay() {
        ferrow = door.ferrow()
                .worker("Ana")
                .limit("silica", "0.1", FilterKind.PARTICLE)
                .task("T4", "silica", "0.6")
                .model("M20", HALF_MASK, "half P3", null, false)
                .posted("Ana", "T4")
                .on("2024-03-01T09:00")
                .fitTested("Ana", "M20", "M", "2024-02-29T10:00", "164", "150", "170", "180", "160", "155", "165")
                .on("2025-06-01T10:00")
                .trained("Ana", "M20", "2025-06-01T09:00")
                .on("2026-02-10T09:00");
    }

    @Test
    void theTestIsGoodUpToAndIncludingItsLastDay() {
        assertThat(ferrow.may("Ana", "T4").withModel("M20", "M").from("2026-02-28T06:00", "2026-02-28T14:00"))
                .isCleared()
                .isDueSoon(FIT_TEST, "2026-02-28");
    }

    @Test
    void itIsOverFromTheFirstInstantOfTheNextDay() {
        assertThat(ferrow.may("Ana", "T4").withModel("M20", "M").from("2026-03-01T00:00", "2026-03-01T08:00"))
                .isNotCleared()
                .because(FIT_TEST, Why.LAPSED)
                .onlyBecauseOf(FIT_TEST)
                .since(FIT_TEST, ferrow.instant("2026-03-01T00:00"));
    }

    @Test
    void aRetestRunsFromItsOwnDay() {
        ferrow.on("2026-02-20T12:00")
                .fitTested("Ana", "M20", "M", "2026-02-20T10:00", "164", "150", "170", "180", "160", "155", "165")
                .on("2028-01-01T12:00")
                .trained("Ana", "M20", "2028-01-01T09:00")
                .on("2028-02-01T12:00");
        assertThat(ferrow.may("Ana", "T4").withModel("M20", "M").from("2028-02-20T22:00", "2028-02-21T06:00"))
                .isNotCleared()
                .because(FIT_TEST, Why.LAPSED)
                .isClearedUntil(ferrow.instant("2028-02-21T00:00"), FIT_TEST);
    }
}
