package org.hoodkeeper.calculation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.hoodkeeper.calculation.ToleranceFactor.Confidence;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

class ToleranceFactorTest {

    /** The whole table, n = 3 to 30: tolerance_factors_95pct.csv, computed by an independent program. */
    @ParameterizedTest
    @CsvFileSource(resources = "/reference/tolerance_factors_95pct.csv", useHeadersInDisplayName = true)
    void everyFactorAgreesWithTheTable(int n, double k70, double k95) {
        assertThat(ToleranceFactor.of(n, Confidence.SEVENTY)).isEqualTo(k70, within(0.00006));
        assertThat(ToleranceFactor.of(n, Confidence.NINETY_FIVE)).isEqualTo(k95, within(0.00006));
    }

    /** EN 689:2018, Annex F, as printed to three decimals (from memory, high; 30 seen in text). */
    @ParameterizedTest
    @CsvSource({"6, 2.187", "7, 2.120", "8, 2.072", "9, 2.035", "10, 2.005", "12, 1.961", "20, 1.870", "30, 1.820"})
    void theFactorsAtSeventyPercentAreThePrintedOnes(int n, double printed) {
        assertThat(ToleranceFactor.of(n, Confidence.SEVENTY)).isEqualTo(printed, within(0.0005));
    }

    /** Quantiles of the non-central t distribution by SciPy 1.17.1, beyond the printed table. */
    @ParameterizedTest
    @CsvSource({
        "2, 4.2166934, 26.2596740",
        "60, 1.7620144, 2.0221592",
        "100, 1.7330059, 1.9265389",
        "1000, 1.6710061, 1.7272633"
    })
    void itHoldsBeyondTheTable(int n, double k70, double k95) {
        assertThat(ToleranceFactor.of(n, Confidence.SEVENTY)).isEqualTo(k70, within(1e-6));
        assertThat(ToleranceFactor.of(n, Confidence.NINETY_FIVE)).isEqualTo(k95, within(1e-5));
    }

    @Test
    void oneValueHasNoSpread() {
        assertThatThrownBy(() -> ToleranceFactor.of(1, Confidence.SEVENTY))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo("calculation.samples.count"));
    }
}
