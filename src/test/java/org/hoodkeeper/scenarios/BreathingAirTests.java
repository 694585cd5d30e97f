package org.hoodkeeper.scenarios;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hoodkeeper.facts.InterfaceType.AIRLINE_HOOD;
import static org.hoodkeeper.rules.RequirementKind.AIR_SUPPLY;
import static org.hoodkeeper.scenarios.AnswerAssert.assertThat;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.calculation.air.AirSample.Component;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.SupplyMove;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;

/**
 * Limits: EN 12021:2014 as restated, carbon monoxide 5 ppm, 15 in the edition of 1999; Grade D, 29 CFR 1910.134(i)(1)(ii), 10 ppm,
 * with the dew point of (i)(5)(ii) below a temperature that must be known.
 */
@ScenarioTest
class BreathingAirTests {

    @Autowired
    Story.Door door;

    private static AirTest air(String edition, String monoxide, String dewPoint, String lowest) {
        return new AirTest(
                Outcome.PASS,
                edition,
                new BigDecimal("20.9"),
                new BigDecimal(monoxide),
                new BigDecimal("420"),
                new BigDecimal("0.1"),
                new BigDecimal(dewPoint),
                null,
                null,
                lowest == null ? null : new BigDecimal(lowest),
                null);
    }

    private static AirTest monoxideAlone(String edition, String ppm) {
        return new AirTest(Outcome.PASS, edition, null, new BigDecimal(ppm), null, null, null, null, null, null, null);
    }

    /** An air hood on the supply C-1. */
    private static Story onAnAirLine(Story site, String deviceClass) {
        String ruleSet = deviceClass.startsWith("supplied") ? "us-federal" : "uk";
        return site.worker("Kay")
                .limit("isocyanate", "0.02")
                .task("T3", "isocyanate", "0.2", AIRLINE_HOOD)
                .model("A40", AIRLINE_HOOD, Map.of(ruleSet, deviceClass), "170", false, null)
                .supply("C-1")
                .set("A-1", "A40", "M", "C-1")
                .posted("Kay", "T3")
                .on("2026-08-12T12:00");
    }

    private Story ferrow() {
        return onAnAirLine(door.ferrow(), "14594-3 hood");
    }

    private Story pine() {
        return onAnAirLine(door.pineBasin(), "supplied continuous helmet/hood")
                .decides("air.interval", "P3M", "2026-01-01");
    }

    private static Answer asked(Story site) {
        return site.may("Kay", "T3").with("A-1").from("2026-08-13T06:00", "2026-08-13T10:00");
    }

    private static void lacks(Story site, Component... components) {
        assertThat(asked(site)).has(AIR_SUPPLY, Result.UNKNOWN, Why.INCOMPLETE);
        assertThat(asked(site).of(AIR_SUPPLY))
                .extracting(Reason::details)
                .allSatisfy(details -> assertThat(details.get(1)).isEqualTo(List.of(components)));
    }

    @ParameterizedTest
    @CsvSource({
        "EN 12021:2014, 5, MET, IN_PLACE",
        "EN 12021:2014, 5.1, NOT_MET, FAILED",
        "EN 12021:1999, 5, MET, IN_PLACE",
        "EN 12021:1999, 14, NOT_MET, FAILED",
        "US Grade D, 9, NOT_MET, FAILED",
        "EN 12021, 5, MET, IN_PLACE",
        "EN 12021, 40, NOT_MET, FAILED",
        "A standard of our own, 5.1, NOT_MET, FAILED"
    })
    void noEditionAllowsWhatTheSitesRulesDoNot(String edition, String monoxide, Result result, Why why) {
        Story site = ferrow().tell(air(edition, monoxide, "-14", null), "C-1", "2026-08-12T10:00");
        assertThat(asked(site)).has(AIR_SUPPLY, result, why);
    }

    /** 8 ppm are enough for the rules in the US, and not for the edition that the laboratory was asked to judge by. */
    @ParameterizedTest
    @CsvSource({
        "US Grade D, 8, MET, IN_PLACE",
        "US Grade D, 11, NOT_MET, FAILED",
        "EN 12021:2014, 8, NOT_MET, FAILED",
        "EN 12021:1999, 11, NOT_MET, FAILED"
    })
    void norDoTheRulesAllowWhatTheEditionDoesNot(String edition, String monoxide, Result result, Why why) {
        Story site = pine().tell(air(edition, monoxide, "-14", "2"), "C-1", "2026-08-12T10:00");
        assertThat(asked(site)).has(AIR_SUPPLY, result, why);
    }

    @Test
    void whatNobodyMeasuredIsNamed() {
        lacks(
                ferrow().tell(monoxideAlone("EN 12021:2014", "1"), "C-1", "2026-08-12T10:00"),
                Component.OXYGEN,
                Component.CARBON_DIOXIDE,
                Component.OIL,
                Component.DEW_POINT);
        lacks(
                pine().tell(monoxideAlone("US Grade D", "2"), "C-1", "2026-08-12T10:00"),
                Component.OXYGEN,
                Component.CARBON_DIOXIDE,
                Component.OIL,
                Component.DEW_POINT);
    }

    /** Below the lowest temperature by 5.56 °C: at 2 °C no more than −3.56. EN 12021 names −11 °C where nobody knows it. */
    @Test
    void howDryGradeDMustBeDependsOnTheTemperature() {
        lacks(pine().tell(air("US Grade D", "2", "-40", null), "C-1", "2026-08-12T10:00"), Component.DEW_POINT);
        lacks(pine().tell(air("EN 12021:2014", "2", "-40", null), "C-1", "2026-08-12T10:00"), Component.DEW_POINT);
        assertThat(asked(pine().tell(air("US Grade D", "2", "-3.56", "2"), "C-1", "2026-08-12T10:00")))
                .has(AIR_SUPPLY, Result.MET, Why.IN_PLACE);
        assertThat(asked(ferrow().tell(air("own", "2", "-11", null), "C-1", "2026-08-12T10:00")))
                .has(AIR_SUPPLY, Result.MET, Why.IN_PLACE);
        assertThat(asked(ferrow().tell(air("own", "2", "-10.9", null), "C-1", "2026-08-12T10:00")))
                .has(AIR_SUPPLY, Result.NOT_MET, Why.FAILED);
    }

    /** A look at carbon monoxide between two whole tests neither proves the air nor takes the whole test's word from it. */
    @Test
    void aLookAtOneComponentStopsBadAirAndProvesNothing() {
        Story site = ferrow().tell(air("EN 12021:2014", "1", "-14", null), "C-1", "2026-08-11T10:00")
                .tell(monoxideAlone("EN 12021:2014", "1"), "C-1", "2026-08-12T10:00");
        assertThat(asked(site)).has(AIR_SUPPLY, Result.MET, Why.IN_PLACE);
        site.tell(monoxideAlone("EN 12021:2014", "6"), "C-1", "2026-08-12T10:30");
        assertThat(asked(site)).has(AIR_SUPPLY, Result.NOT_MET, Why.FAILED);
        site.tell(monoxideAlone("EN 12021:2014", "1"), "C-1", "2026-08-12T11:00");
        assertThat(asked(site)).has(AIR_SUPPLY, Result.NOT_MET, Why.FAILED);
        site.tell(air("EN 12021:2014", "1", "-14", null), "C-1", "2026-08-12T11:30");
        assertThat(asked(site)).has(AIR_SUPPLY, Result.MET, Why.IN_PLACE);
    }

    @Test
    void afterAMoveALookAtOneComponentIsNoTest() {
        Story site = ferrow().tell(air("EN 12021:2014", "1", "-14", null), "C-1", "2026-08-11T10:00")
                .tell(new SupplyMove("gate"), "C-1", "2026-08-12T09:00");
        assertThat(asked(site)).has(AIR_SUPPLY, Result.NOT_MET, Why.MOVED);
        site.tell(monoxideAlone("EN 12021:2014", "1"), "C-1", "2026-08-12T10:00");
        lacks(site, Component.OXYGEN, Component.CARBON_DIOXIDE, Component.OIL, Component.DEW_POINT);
    }
}
