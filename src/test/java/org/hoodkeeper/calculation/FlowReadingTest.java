package org.hoodkeeper.calculation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * True volume flow of a variable-area indicator = reading × √(ρcal ÷ ρ): VDI/VDE 3513-1, ISO 11605 (from memory). Expected values
 * were worked out apart from this program.
 */
class FlowReadingTest {

    private static final AirCondition TWENTY_DEGREES = air("20", "1013.25");

    private static final AirCondition COLD_STORE = air("4", "1013");

    private static final AirCondition HOT_AND_HIGH = air("28", "880");

    private static final FlowIndicator INDICATOR = new FlowIndicator(TWENTY_DEGREES, decimal("1"), decimal("0"));

    /** 165 at 4 °C and 101.3 kPa are 160.45, shown as 160.4: a corrected flow is never rounded up. 160 at 28 °C, 88 kPa are 174.01. */
    @Test
    void coldAirCarriesLessThanTheFloatShows() {
        assertThat(new FlowReading(decimal("165"), COLD_STORE).corrected(INDICATOR))
                .isEqualByComparingTo("160.4");
        assertThat(new FlowReading(decimal("160"), HOT_AND_HIGH).corrected(INDICATOR))
                .isEqualByComparingTo("174.0");
    }

    /** To prove 170 at 4 °C and 101.3 kPa the float must show 174.82, on a 0.1 scale 174.9. */
    @Test
    void requiredReadingGoesUp() {
        MinimumFlow minimum = MinimumFlow.inLocalAir(decimal("170"));
        assertThat(FlowReading.required(INDICATOR, minimum, COLD_STORE)).isEqualByComparingTo("174.9");
        assertThat(passes("174.9", INDICATOR, minimum, COLD_STORE)).isTrue();
        assertThat(passes("174.8", INDICATOR, minimum, COLD_STORE)).isFalse();
    }

    /** A stated minimum of 175 with the float level with the mark, calibration air, no uncertainty: common practice, no source. */
    @Test
    void floatLevelWithTheMarkPasses() {
        MinimumFlow minimum = MinimumFlow.inLocalAir(decimal("175"));
        assertThat(passes("175", INDICATOR, minimum, TWENTY_DEGREES)).isTrue();
        assertThat(passes("174.9", INDICATOR, minimum, TWENTY_DEGREES)).isFalse();
        assertThat(FlowReading.required(INDICATOR, minimum, TWENTY_DEGREES)).isEqualByComparingTo("175.0");
    }

    /** What floating point cannot tell from a tenth is worked out in full; everything else is the same figure by either way. */
    @Test
    void theJudgedFigureIsTheCorrectedFlowToTheTenth() {
        MinimumFlow minimum = MinimumFlow.inLocalAir(decimal("170"));
        for (String factor : new String[] {"1", "1.06", "0.97", "1.25"}) {
            FlowIndicator indicator = new FlowIndicator(TWENTY_DEGREES, decimal(factor), decimal("2"));
            for (AirCondition air : new AirCondition[] {TWENTY_DEGREES, COLD_STORE, HOT_AND_HIGH}) {
                for (int tenths = 0; tenths < 4_000; tenths += 7) {
                    FlowReading reading = new FlowReading(BigDecimal.valueOf(tenths, 1), air);
                    assertThat(reading.judge(indicator, minimum).corrected()).isEqualTo(reading.corrected(indicator));
                }
            }
        }
    }

    /** An indicator that reads 6 % high shows 180.2 for a true 170: 180.2 ÷ 1.06 = 170.0 exactly. */
    @Test
    void indicatorThatReadsHighIsDividedOut() {
        FlowIndicator high = new FlowIndicator(TWENTY_DEGREES, decimal("1.06"), decimal("0"));
        MinimumFlow minimum = MinimumFlow.inLocalAir(decimal("170"));
        assertThat(new FlowReading(decimal("180.2"), TWENTY_DEGREES).corrected(high))
                .isEqualByComparingTo("170.0");
        assertThat(passes("180.2", high, minimum, TWENTY_DEGREES)).isTrue();
        assertThat(passes("180.1", high, minimum, TWENTY_DEGREES)).isFalse();
        assertThat(FlowReading.required(high, minimum, TWENTY_DEGREES)).isEqualByComparingTo("180.2");
    }

    /** Accepted when corrected flow less the expanded uncertainty is at least the minimum. */
    @Test
    void uncertaintyCountsAgainstTheSet() {
        FlowIndicator uncertain = new FlowIndicator(TWENTY_DEGREES, decimal("1"), decimal("5"));
        FlowReading reading = new FlowReading(decimal("174.9"), TWENTY_DEGREES);
        FlowReading.Judgement judgement = reading.judge(uncertain, MinimumFlow.inLocalAir(decimal("170")));
        assertThat(judgement.corrected()).isEqualByComparingTo("174.9");
        assertThat(judgement.atLeast()).isEqualByComparingTo("169.9");
        assertThat(judgement.passed()).isFalse();
        assertThat(passes("175", uncertain, MinimumFlow.inLocalAir(decimal("170")), TWENTY_DEGREES))
                .isTrue();
    }

    /**
     * At 88 kPa and 28 °C air is √1.18284 = 1.08759 times as roomy for the float and 1.18284 times for the volume. A minimum of 170
     * at 20 °C and 101.325 kPa therefore needs 170 × 1.08759 = 184.89 on the float; in local air 170 ÷ 1.08759 = 156.31 does.
     */
    @Test
    void footingOfTheMinimumIsTheModels() {
        assertThat(FlowReading.required(INDICATOR, MinimumFlow.at(TWENTY_DEGREES, decimal("170")), HOT_AND_HIGH))
                .isEqualByComparingTo("184.9");
        assertThat(FlowReading.required(INDICATOR, MinimumFlow.inLocalAir(decimal("170")), HOT_AND_HIGH))
                .isEqualByComparingTo("156.4");
    }

    /** Ball tube at height, calibrated at 1013.25 hPa, same temperature: ICAO Doc 7488 pressures, factors √(p0 ÷ p). */
    @ParameterizedTest
    @CsvSource({"954.61, 175.14", "898.75, 180.50", "845.56, 186.10", "794.95, 191.93", "701.09, 204.37"})
    void hundredAndSeventyShownAtHeight(String hectopascals, String expected) {
        BigDecimal corrected = new FlowReading(decimal("170"), air("20", hectopascals)).corrected(INDICATOR);
        BigDecimal published = decimal(expected);
        assertThat(corrected).isLessThanOrEqualTo(published.add(decimal("0.005")));
        assertThat(corrected).isCloseTo(published, Offset.offset(decimal("0.1")));
    }

    /** What is asked for is what passes: over a grid of air, instruments and minima the two never disagree by a tenth. */
    @Test
    void requiredIsTheLowestReadingThatPasses() {
        for (int celsius = -20; celsius <= 45; celsius += 5) {
            for (String hectopascals : new String[] {"760", "880.5", "954.61", "1013.25", "1043"}) {
                for (String shown : new String[] {"0.97", "1", "1.06"}) {
                    for (String least : new String[] {"115", "170", "172.35"}) {
                        FlowIndicator indicator = new FlowIndicator(TWENTY_DEGREES, decimal(shown), decimal("2.5"));
                        AirCondition air = air(String.valueOf(celsius), hectopascals);
                        for (MinimumFlow minimum : new MinimumFlow[] {
                            MinimumFlow.inLocalAir(decimal(least)), MinimumFlow.at(TWENTY_DEGREES, decimal(least))
                        }) {
                            BigDecimal required = FlowReading.required(indicator, minimum, air);
                            assertThat(passes(required.toString(), indicator, minimum, air))
                                    .isTrue();
                            assertThat(passes(required.subtract(decimal("0.1")).toString(), indicator, minimum, air))
                                    .isFalse();
                        }
                    }
                }
            }
        }
    }

    /** 42 CFR 84.175(b), 84.179(a): 115 L/min tight, 170 L/min loose. The older rule said 4 and 6 cfm: 113.3 and 169.9 L/min. */
    @Test
    void cubicFeet() {
        assertThat(FlowUnit.CUBIC_FEET_PER_MINUTE.toLitresPerMinute(decimal("4")))
                .isCloseTo(decimal("113.267"), Offset.offset(decimal("0.001")));
        assertThat(FlowUnit.CUBIC_FEET_PER_MINUTE.toLitresPerMinute(decimal("6")))
                .isCloseTo(decimal("169.901"), Offset.offset(decimal("0.001")));
        assertThat(FlowUnit.LITRES_PER_MINUTE.toLitresPerMinute(decimal("170"))).isEqualByComparingTo("170");
    }

    @Test
    void impossibleFiguresAreRefused() {
        assertThatThrownBy(() -> new FlowReading(decimal("-1"), COLD_STORE))
                .hasMessageContaining("calculation.flowReading.range");
        assertThatThrownBy(() -> MinimumFlow.inLocalAir(decimal("0")))
                .hasMessageContaining("calculation.minimumFlow.notPositive");
        assertThatThrownBy(() -> new FlowIndicator(TWENTY_DEGREES, decimal("6"), decimal("0")))
                .hasMessageContaining("calculation.calibrationFactor.range");
        assertThatThrownBy(() -> new FlowIndicator(TWENTY_DEGREES, decimal("1"), decimal("-1")))
                .hasMessageContaining("calculation.uncertainty.negative");
    }

    private static boolean passes(String shown, FlowIndicator indicator, MinimumFlow minimum, AirCondition air) {
        return new FlowReading(decimal(shown), air).judge(indicator, minimum).passed();
    }

    private static AirCondition air(String celsius, String hectopascals) {
        return new AirCondition(decimal(celsius), decimal(hectopascals));
    }

    private static BigDecimal decimal(String value) {
        return new BigDecimal(value);
    }
}
