package org.hoodkeeper.scenarios;

import static org.hoodkeeper.facts.InterfaceType.HALF_MASK;
import static org.hoodkeeper.facts.InterfaceType.POWERED_HOOD;
import static org.hoodkeeper.rules.RequirementKind.BATTERY;
import static org.hoodkeeper.rules.RequirementKind.CLEAN;
import static org.hoodkeeper.rules.RequirementKind.EXAMINATION;
import static org.hoodkeeper.rules.RequirementKind.FLOW;
import static org.hoodkeeper.rules.RequirementKind.INTERFACE;
import static org.hoodkeeper.rules.RequirementKind.KIT_HOLD;
import static org.hoodkeeper.rules.RequirementKind.PRE_USE_CHECK;
import static org.hoodkeeper.scenarios.AnswerAssert.assertThat;

import java.math.BigDecimal;
import java.util.EnumMap;
import java.util.Map;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.ledger.Draft;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** What a set has been through must not slip out of sight: missed, failed, handed on, made into something else. */
@ScenarioTest
class SetHistoryTests {

    @Autowired
    Story.Door door;

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
                .posted("Kay", "T4")
                .posted("Lee", "T4")
                .on("2026-08-03T12:00")
                .indicator("FI-1", "2026-05-01", "2027-04-30")
                .trained("Kay", "H20", "2026-08-03T09:00")
                .trained("Lee", "H20", "2026-08-03T09:00")
                .examined("S-201", "190", "FI-1", "2026-08-03T10:00");
    }

    /** ACoP L5, 181, restated: at least once a month; an emergency set is no exception. */
    @Test
    void anEmergencySetIsExaminedAtLeastAsOftenAsAnyOther() {
        ferrow.tell(data("H20", true), "S-201", "2026-08-03T11:00").on("2026-09-04T05:30");
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-09-03T06:00", "2026-09-03T12:00"))
                .has(EXAMINATION, Result.MET, Why.IN_PLACE);
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-09-04T06:00", "2026-09-04T12:00"))
                .isNotCleared()
                .onlyBecauseOf(EXAMINATION, FLOW)
                .because(FLOW, Why.LAPSED);
    }

    /** Found is not ready, also where nobody says "found": the next claim shows that it was. Common practice, no source. */
    @Test
    void aMissingSetThatIsSimplyIssuedAgainIsNotReady() {
        ferrow.on("2026-08-10T12:00")
                .claims("S-201", Custody.Claim.MISSING, null, "2026-08-07T10:00")
                .issued("S-201", "Kay", "2026-08-10T11:00");
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

    /** 29 CFR 1910.134(h)(4); COSHH regulation 9(5): what failed before use is not worn until it is put right. */
    @Test
    void aSetThatFailedItsCheckStaysOutForEverybodyUntilItIsExamined() {
        ferrow.on("2026-08-04T06:00").tell(failing(PreUseCheck.Item.VISOR, "Kay", "2026-08-04T05:50"));
        assertThat(ferrow.may("Lee", "T4").with("S-201").from("2026-08-06T06:00", "2026-08-06T12:00"))
                .isNotCleared()
                .because(KIT_HOLD, Why.FAILED);
        ferrow.on("2026-08-04T08:00")
                .disinfected("S-201", "2026-08-04T07:00")
                .examined("S-201", "190", "FI-1", "2026-08-04T07:30");
        assertThat(ferrow.may("Lee", "T4").with("S-201").from("2026-08-06T06:00", "2026-08-06T12:00"))
                .isCleared();
    }

    @Test
    void stubbleAtOnePersonsSealSaysNothingAgainstTheSet() {
        ferrow.on("2026-08-04T06:00").tell(failing(PreUseCheck.Item.SKIN_AT_SEAL, "Kay", "2026-08-04T05:50"));
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-08-06T06:00", "2026-08-06T12:00"))
                .isCleared();
    }

    /** A file or a paper list may leave items out: what was not looked at was not found sound. 29 CFR 1910.134(h)(3)(ii). */
    @Test
    void aCheckThatLeavesOutTheHoseIsNotAWholeCheck() {
        Map<PreUseCheck.Item, Outcome> items = new EnumMap<>(PreUseCheck.Item.class);
        for (PreUseCheck.Item item : PreUseCheck.Item.values()) {
            items.put(item, Outcome.PASS);
        }
        items.remove(PreUseCheck.Item.HOSE);
        PreUseCheck check = new PreUseCheck(items, new BigDecimal("190"), null, Outcome.PASS, 100, null);
        ferrow.on("2026-08-04T06:00")
                .issued("S-201", "Kay", "2026-08-04T05:30")
                .tell(Draft.of(check, ferrow.id("S-201"), ferrow.instant("2026-08-04T05:50"))
                        .item(ferrow.id("Kay")));
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-08-04T06:00", "2026-08-04T12:00"))
                .isNotCleared()
                .because(PRE_USE_CHECK, Why.INCOMPLETE);
    }

    /** 29 CFR 1910.134(h)(1)(ii): disinfected after the other person took it off, not while it was worn. */
    @Test
    void aDisinfectionWhileSomebodyElseStillWoreItDoesNotCount() {
        ferrow.on("2026-08-04T15:00")
                .wore("Kay", "S-201", "T4", "2026-08-04T06:00", "2026-08-04T14:00")
                .disinfected("S-201", "2026-08-04T12:00")
                .flowChecked("S-201", "190", "FI-1", "2026-08-04T14:30");
        assertThat(ferrow.may("Lee", "T4").with("S-201").from("2026-08-04T16:00", "2026-08-04T18:00"))
                .isNotCleared()
                .onlyBecauseOf(CLEAN);
        ferrow.disinfected("S-201", "2026-08-04T14:00");
        assertThat(ferrow.may("Lee", "T4").with("S-201").from("2026-08-04T16:00", "2026-08-04T18:00"))
                .isCleared();
    }

    /** A set that becomes one of another model leaves its own past alone. */
    @Test
    void aSetIsJudgedAsTheModelThatItWasThen() {
        ferrow.model("M20", HALF_MASK, "half P3", null, false)
                .on("2026-08-20T12:00")
                .tell(data("M20", false), "S-201", "2026-08-15T12:00");
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-08-15T11:00", "2026-08-15T11:30"))
                .has(INTERFACE, Result.MET, Why.IN_PLACE)
                .has(FLOW, Result.MET, Why.IN_PLACE);
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-08-15T11:00", "2026-08-15T13:00"))
                .isNotCleared()
                .because(INTERFACE, Why.OTHER_VARIANT)
                .since(INTERFACE, ferrow.instant("2026-08-15T12:00"));
    }

    /** An exit that nobody told is a gap in the record, not a battery that has run since yesterday. */
    @Test
    void aForgottenExitDoesNotEmptyTheBattery() {
        ferrow.on("2026-08-05T05:55")
                .issued("S-201", "Kay", "2026-08-04T05:30")
                .tell(entry("Kay", "2026-08-04T06:00"))
                .checked("S-201", "Kay", "2026-08-05T05:50");
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-08-05T06:00", "2026-08-05T13:00"))
                .isCleared();
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-08-05T06:00", "2026-08-05T14:00"))
                .isNotCleared()
                .onlyBecauseOf(BATTERY)
                .since(BATTERY, ferrow.instant("2026-08-05T13:50"));
    }

    /** A wear told as a whole says as much of the battery as an entry does. */
    @Test
    void theBatteryRunsSinceAWearToldAsAWholeBegan() {
        ferrow.on("2026-08-05T20:00").wore("Kay", "S-201", "T4", "2026-08-05T06:00", "2026-08-05T15:00");
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2026-08-05T12:00", "2026-08-05T15:00"))
                .because(BATTERY, Why.BATTERY_ENDS)
                .since(BATTERY, ferrow.instant("2026-08-05T14:00"));
    }

    private Draft entry(String worker, String at) {
        return Draft.of(new Wear((TaskId) ferrow.id("T4"), Wear.Step.ENTRY), ferrow.id(worker), ferrow.instant(at))
                .item(ferrow.id("S-201"));
    }

    private Draft failing(PreUseCheck.Item item, String worker, String at) {
        return Draft.of(
                        new PreUseCheck(
                                Map.of(PreUseCheck.Item.HOSE, Outcome.PASS, item, Outcome.FAIL),
                                new BigDecimal("190"),
                                null,
                                Outcome.PASS,
                                100,
                                null),
                        ferrow.id("S-201"),
                        ferrow.instant(at))
                .item(ferrow.id(worker));
    }

    private SetData data(String model, boolean emergency) {
        return new SetData((ModelId) ferrow.id(model), "M", "R1", null, emergency, "main", null);
    }
}
