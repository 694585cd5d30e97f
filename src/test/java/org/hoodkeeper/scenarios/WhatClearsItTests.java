package org.hoodkeeper.scenarios;

import static org.hoodkeeper.facts.InterfaceType.AIRLINE_HOOD;
import static org.hoodkeeper.facts.InterfaceType.POWERED_HOOD;
import static org.hoodkeeper.rules.RequirementKind.AIR_SUPPLY;
import static org.hoodkeeper.rules.RequirementKind.BATTERY;
import static org.hoodkeeper.rules.RequirementKind.FILTER;
import static org.hoodkeeper.rules.RequirementKind.FLOW;
import static org.hoodkeeper.rules.RequirementKind.KIT_HOLD;
import static org.hoodkeeper.rules.RequirementKind.SUPPLY_HOLD;
import static org.hoodkeeper.scenarios.AnswerAssert.assertThat;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.assertj.core.api.Assertions;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.ClearBy;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.rules.RequirementKind;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** What an answer tells people to do would clear it: nobody tests air that is good, or buys a filter that does not exist. */
@ScenarioTest
class WhatClearsItTests {

    @Autowired
    Story.Door door;

    private Story paintShop(Story site) {
        return site.worker("Kay")
                .limit("isocyanate", "0.02")
                .task("T3", "isocyanate", "0.2")
                .posted("Kay", "T3")
                .model(
                        "A40",
                        AIRLINE_HOOD,
                        Map.of("uk", "14594-3 hood", "us-federal", "supplied continuous helmet/hood"),
                        "140",
                        false,
                        null)
                .supply("C-1")
                .set("A-1", "A40", "M", "C-1")
                .on("2026-08-12T12:00")
                .trained("Kay", "A40", "2026-08-03T09:00")
                .medical(
                        "Kay",
                        new MedicalOutcome(
                                MedicalOutcome.Result.FIT, Set.of(), null, null, null, false, null, "Works health"),
                        "2026-05-01T09:00")
                .indicator("FI-1", "2026-05-01", "2027-04-30")
                .examined("A-1", "190", "FI-1", "2026-08-12T11:00")
                .flowChecked("A-1", "190", "FI-1", "2026-08-12T11:00")
                .tell(airTest(), "C-1", "2026-08-12T10:00");
    }

    @Test
    void againstIsocyanateNoOtherFilterHelpsButSuppliedAirDoes() {
        Story ferrow = paintShop(door.ferrow())
                .model("H40", POWERED_HOOD, "TH3", "180", false)
                .set("S-1", "H40", "M")
                .trained("Kay", "H40", "2026-08-03T09:00")
                .examined("S-1", "190", "FI-1", "2026-08-12T11:00");
        Answer powered = ferrow.may("Kay", "T3").with("S-1").from("2026-08-12T13:00", "2026-08-12T14:00");
        assertThat(powered).isNotCleared().onlyBecauseOf(FILTER).because(FILTER, Why.AIR_FED_ONLY);
        clearsBy(powered, FILTER, ClearBy.Action.TAKE_SUPPLIED_AIR, Role.OFFICER);
        assertThat(ferrow.may("Kay", "T3").with("A-1").from("2026-08-12T13:00", "2026-08-12T14:00"))
                .isCleared();
    }

    /** 29 CFR 1910.134(i) names no interval: the site decides it, and no test of the air stands in for that. */
    @Test
    void whereTheSiteHasNotDecidedHowOftenTheAirIsTestedItDecides() {
        Story pine = paintShop(door.pineBasin());
        Answer undecided = pine.may("Kay", "T3").with("A-1").from("2026-08-12T13:00", "2026-08-12T14:00");
        assertThat(undecided).isNotCleared().onlyBecauseOf(AIR_SUPPLY).because(AIR_SUPPLY, Why.DECISION_MISSING);
        clearsBy(undecided, AIR_SUPPLY, ClearBy.Action.SITE_DECIDES, Role.OFFICER);
        pine.decides("air.interval", "P3M", "2026-01-01");
        assertThat(pine.may("Kay", "T3").with("A-1").from("2026-08-12T13:00", "2026-08-12T14:00"))
                .isCleared();
    }

    @Test
    void aHeldSupplyIsReleasedNotTestedAgain() {
        Story ferrow = paintShop(door.ferrow());
        ferrow.tell(new Hold(Hold.Step.PLACED, Hold.Why.OTHER, "alarm"), "C-1", "2026-08-12T10:50")
                .tell(airTest(), "C-1", "2026-08-12T10:55");
        Answer held = ferrow.may("Kay", "T3").with("A-1").from("2026-08-12T13:00", "2026-08-12T14:00");
        assertThat(held).isNotCleared().onlyBecauseOf(SUPPLY_HOLD);
        clearsBy(held, SUPPLY_HOLD, ClearBy.Action.RELEASE_HOLD, Role.STOREKEEPER);
    }

    /** Without minimum flow and running time no check and no swap of batteries proves anything. */
    @Test
    void whatIsMissingInTheModelIsCompletedThere() {
        Story ferrow = paintShop(door.ferrow())
                .limit("silica", "0.1", FilterKind.PARTICLE)
                .task("T4", "silica", "0.6")
                .posted("Kay", "T4")
                .model("H20", POWERED_HOOD, Map.of("uk", "TH2"), null, false, null)
                .set("S-1", "H20", "M")
                .trained("Kay", "H20", "2026-08-03T09:00")
                .examined("S-1", "190", "FI-1", "2026-08-12T11:00");
        Answer answer = ferrow.may("Kay", "T4").with("S-1").from("2026-08-12T13:00", "2026-08-12T14:00");
        assertThat(answer)
                .isNotCleared()
                .onlyBecauseOf(FLOW, BATTERY)
                .because(FLOW, Why.MINIMUM_UNKNOWN)
                .because(BATTERY, Why.MISSING);
        clearsBy(answer, FLOW, ClearBy.Action.COMPLETE_MODEL, Role.OFFICER);
        clearsBy(answer, BATTERY, ClearBy.Action.COMPLETE_MODEL, Role.OFFICER);
    }

    @Test
    void twoReasonsOfOneRequirementEachNameTheirOwn() {
        Story ferrow = paintShop(door.ferrow());
        ferrow.tell(new Hold(Hold.Step.PLACED, Hold.Why.QUARANTINE, null), "A-1", "2026-08-12T11:30")
                .tell(new Defect(Defect.Step.FOUND, "hose", null), "A-1", "2026-08-12T11:40");
        Answer answer = ferrow.may("Kay", "T3").with("A-1").from("2026-08-12T13:00", "2026-08-12T14:00");
        assertThat(answer).because(KIT_HOLD, Why.HELD).because(KIT_HOLD, Why.DEFECT_OPEN);
        Assertions.assertThat(answer.clearBy())
                .filteredOn(action -> action.kind() == KIT_HOLD)
                .extracting(ClearBy::action)
                .containsExactly(ClearBy.Action.RELEASE_OR_SWAP, ClearBy.Action.MEND_OR_SWAP);
        Assertions.assertThat(answer.of(KIT_HOLD))
                .filteredOn(reason -> reason.why() == Why.DEFECT_OPEN)
                .allMatch(reason -> answer.clearBy().stream()
                        .filter(action -> action.clears(reason))
                        .map(ClearBy::action)
                        .toList()
                        .equals(List.of(ClearBy.Action.MEND_OR_SWAP)));
    }

    private static void clearsBy(Answer answer, RequirementKind kind, ClearBy.Action action, Role who) {
        Assertions.assertThat(answer.clearBy())
                .filteredOn(one -> one.kind() == kind)
                .containsExactly(new ClearBy(kind, action, who, null));
    }

    private static AirTest airTest() {
        return new AirTest(
                Outcome.PASS,
                "EN 12021:2014",
                new BigDecimal("20.9"),
                new BigDecimal("2"),
                new BigDecimal("420"),
                new BigDecimal("0.1"),
                new BigDecimal("-45"),
                null,
                null,
                new BigDecimal("2"),
                null);
    }
}
