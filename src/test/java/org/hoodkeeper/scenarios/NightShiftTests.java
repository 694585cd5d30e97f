package org.hoodkeeper.scenarios;

import static org.hoodkeeper.facts.InterfaceType.POWERED_HOOD;
import static org.hoodkeeper.rules.RequirementKind.BATTERY;
import static org.hoodkeeper.rules.RequirementKind.PRE_USE_CHECK;
import static org.hoodkeeper.scenarios.AnswerAssert.assertThat;

import java.time.Duration;
import java.time.Instant;
import org.assertj.core.api.Assertions;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.ClearBy;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.facts.FilterKind;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** 24 October 2026 22:00 (UTC+1) to 25 October 06:00 (UTC+0) in Europe/London: nine hours by tz database, not eight. */
@ScenarioTest
class NightShiftTests {

    private static final String FROM = "2026-10-24T22:00:00+01:00";
    private static final String UNTIL = "2026-10-25T06:00:00+00:00";

    @Autowired
    Story.Door door;

    private Story ferrow;

    @BeforeEach
    void aReadySetInHand() {
        ferrow = door.ferrow()
                .worker("Nia")
                .limit("silica", "0.1", FilterKind.PARTICLE)
                .task("T4", "silica", "0.6")
                .model("H20", POWERED_HOOD, "TH2", "170", false)
                .set("S-1", "H20", "M")
                .posted("Nia", "T4")
                .on("2026-10-20T12:00")
                .indicator("FI-1", "2026-05-01", "2027-04-30")
                .trained("Nia", "H20", "2026-10-20T09:00")
                .examined("S-1", "190", "FI-1", "2026-10-20T08:00")
                .issued("S-1", "Nia", "2026-10-20T11:00")
                .on("2026-10-24T21:50")
                .checked("S-1", "Nia", "2026-10-24T21:48");
    }

    @Test
    void theBatteryEndsAfterEightElapsedHours() {
        Answer answer = ferrow.may("Nia", "T4").with("S-1").from(FROM, UNTIL);
        Assertions.assertThat(answer.question().wear().length()).isEqualTo(Duration.ofHours(9));
        assertThat(answer)
                .isNotCleared()
                .onlyBecauseOf(BATTERY)
                .isClearedUntil(Instant.parse("2026-10-25T05:00:00Z"), BATTERY)
                .has(PRE_USE_CHECK, Result.MET, Why.IN_PLACE);
        Assertions.assertThat(answer.clearBy())
                .anyMatch(act -> act.action() == ClearBy.Action.SWAP_BATTERY
                        && Instant.parse("2026-10-25T05:00:00Z").equals(act.at()));
    }

    @Test
    void aPlannedSwapMakesItACondition() {
        assertThat(ferrow.may("Nia", "T4")
                        .with("S-1")
                        .swappingAt("2026-10-25T02:00:00+00:00")
                        .from(FROM, UNTIL))
                .isClearedWithConditions()
                .has(BATTERY, Result.MET_WITH_CONDITIONS, Why.BATTERY_SWAP);
    }

    @Test
    void aNewDonningAfterTheBreakNeedsANewCheck() {
        ferrow.on("2026-10-25T01:30:00+00:00").wore("Nia", "S-1", "T4", FROM, "2026-10-25T01:20:00+01:00");
        assertThat(ferrow.may("Nia", "T4").with("S-1").from("2026-10-25T01:30:00+00:00", "2026-10-25T04:00:00+00:00"))
                .isNotCleared()
                .onlyBecauseOf(PRE_USE_CHECK, org.hoodkeeper.rules.RequirementKind.PLACEMENT_CHECK);
    }

    @Test
    void anExitAtTwentyPastOneSummerTimeComesBeforeAnEntryAtTenPastOneWinterTime() {
        Assertions.assertThat(ferrow.instant("2026-10-25T01:20:00+01:00"))
                .isBefore(ferrow.instant("2026-10-25T01:10:00+00:00"));
    }
}
