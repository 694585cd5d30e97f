package org.hoodkeeper.calculation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.hoodkeeper.calculation.ComplianceTest.Result.COMPLIANT;
import static org.hoodkeeper.calculation.ComplianceTest.Result.MORE_SAMPLES;
import static org.hoodkeeper.calculation.ComplianceTest.Result.NOT_COMPLIANT;
import static org.hoodkeeper.calculation.ExposureStatisticsTest.samples;

import java.math.BigDecimal;
import java.util.List;
import java.util.stream.Stream;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ComplianceTestTest {

    /** EN 689:2018: all of 3, 4, 5 results below 0.1, 0.15, 0.2 of the limit (from memory, high); limit 1. */
    @ParameterizedTest
    @CsvSource({
        "0.099 0.05 0.02, COMPLIANT",
        "0.1 0.05 0.02, MORE_SAMPLES",
        "0.149 0.1 0.1 0.1, COMPLIANT",
        "0.15 0.1 0.1 0.1, MORE_SAMPLES",
        "0.199 0.1 0.1 0.1 0.1, COMPLIANT",
        "0.2 0.1 0.1 0.1 0.1, MORE_SAMPLES",
        "1 0.01 0.01, MORE_SAMPLES",
        "1.01 0.01 0.01, NOT_COMPLIANT"
    })
    void thePreliminaryTestNeedsAllFarBelowAndNoneAbove(String values, ComplianceTest.Result result) {
        ComplianceTest test = ComplianceTest.of(samples(values.split(" ")), BigDecimal.ONE);
        assertThat(test.kind()).isEqualTo(ComplianceTest.TestKind.PRELIMINARY);
        assertThat(test.result()).isEqualTo(result);
    }

    /** U 3.474921 against U_R 2.187: passes at 70 % confidence although the 95/95 limit 1.104 lies above the limit 1. */
    @Test
    void fromSixOnTheStatisticalTestDecides() {
        ComplianceTest passes =
                ComplianceTest.of(samples("0.12", "0.30", "0.22", "0.18", "0.41", "0.25"), BigDecimal.ONE);
        assertThat(passes.result()).isEqualTo(COMPLIANT);
        assertThat(passes.margin()).isEqualTo(3.474921, within(1e-6));
        assertThat(passes.needed()).isEqualTo(2.187, within(0.0005));
        assertThat(ComplianceTest.of(ExposureStatisticsTest.SIX, new BigDecimal("0.1"))
                        .result())
                .isEqualTo(NOT_COMPLIANT);
    }

    @Test
    void aDetectionLimitCountsAsAResultInThePreliminaryTestButIsNoExceedance() {
        List<Sample> samples = Stream.concat(samples("0.01", "0.01").stream(), Stream.of(Sample.below("1.5")))
                .toList();
        assertThat(ComplianceTest.of(samples, BigDecimal.ONE).result()).isEqualTo(MORE_SAMPLES);
    }

    @Test
    void twoResultsSayNothing() {
        assertThatThrownBy(() -> ComplianceTest.of(samples("0.01", "0.01"), BigDecimal.ONE))
                .isInstanceOfSatisfying(
                        Refused.class,
                        refused -> assertThat(refused.code()).isEqualTo("calculation.samples.preliminary"));
    }
}
