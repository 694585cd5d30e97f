package org.hoodkeeper.calculation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WornProtectionTest {

    /** The removal table as published in the trade, one decimal; recomputed from the definition with exact fractions. */
    @ParameterizedTest
    @CsvSource({
        "20, 0.01, 16.8",
        "20, 0.02, 14.5",
        "20, 0.05, 10.3",
        "20, 0.10, 6.9",
        "40, 0.01, 28.8",
        "40, 0.02, 22.5",
        "40, 0.05, 13.6",
        "40, 0.10, 8.2",
        "1000, 0.01, 91.0",
        "1000, 0.02, 47.7",
        "1000, 0.05, 19.6",
        "1000, 0.10, 9.9"
    })
    void theRemovalTable(String factor, String unworn, BigDecimal left) {
        assertThat(WornProtection.effective(new BigDecimal(factor), new BigDecimal(unworn)))
                .isCloseTo(left, within(new BigDecimal("0.05")));
    }

    /** Visor up in 2 of 30 looks: 8.8 is left of 20, and 11.1 of 40, both short of 14.2. */
    @Test
    void aHigherClassDoesNotMendLiftedVisors() {
        BigDecimal lifted = new BigDecimal("0.0666667");
        assertThat(WornProtection.effective(new BigDecimal("20"), lifted))
                .isCloseTo(new BigDecimal("8.8"), within(new BigDecimal("0.05")));
        assertThat(WornProtection.effective(new BigDecimal("40"), lifted))
                .isCloseTo(new BigDecimal("11.1"), within(new BigDecimal("0.05")));
    }

    /** At 14.2 times the limit in 480 min: 10 min at 20, 22 min at 40 (computed from the definition: 10.3 and 22.4). */
    @ParameterizedTest
    @CsvSource({"20, 14.2, 10", "40, 14.2, 22", "20, 20, 0", "20, 26.7, 0", "20, 0.9, 480", "1, 0.5, 480", "1, 1, 480"})
    void theMinutesAllowedAreWholeOnes(String factor, String ratio, int minutes) {
        assertThat(WornProtection.minutesAllowed(new BigDecimal(factor), new HazardRatio(new BigDecimal(ratio)), 480))
                .isEqualTo(minutes);
    }

    @Test
    void aShareIsBetweenNoneAndAll() {
        assertThatThrownBy(() -> WornProtection.effective(new BigDecimal("20"), new BigDecimal("1.1")))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo("calculation.unworn.range"));
    }
}
