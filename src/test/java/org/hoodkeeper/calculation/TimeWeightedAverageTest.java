package org.hoodkeeper.calculation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import java.time.Duration;
import java.util.List;
import org.hoodkeeper.calculation.TimeWeightedAverage.Part;
import org.junit.jupiter.api.Test;

class TimeWeightedAverageTest {

    /** 29 CFR 1910.1000(d)(1)(ii), worked example: 2 h at 150, 2 h at 75 and 4 h at 50 ppm average 81.25 ppm. */
    @Test
    void exampleOfTheRegulation() {
        assertThat(TimeWeightedAverage.over8Hours(List.of(part("150", 120), part("75", 120), part("50", 240))))
                .isEqualByComparingTo("81.25");
    }

    /** 1.4 × 95 + 0.35 × 150 + 0.05 × 235 min over 480 min, computed by hand: 197.25 ÷ 480. */
    @Test
    void threeStretchesOfDust() {
        assertThat(TimeWeightedAverage.over8Hours(List.of(part("1.4", 95), part("0.35", 150), part("0.05", 235))))
                .isEqualByComparingTo("0.4109375");
    }

    /** The divisor is 8 hours whatever the shift, 29 CFR 1910.1000(d)(1)(i): 12 h at 100 count as 150. */
    @Test
    void twelveHoursStillDivideByEight() {
        assertThat(TimeWeightedAverage.over8Hours(List.of(part("100", 720)))).isEqualByComparingTo("150");
        assertThat(TimeWeightedAverage.over8Hours(List.of(part("100", 240)))).isEqualByComparingTo("50");
    }

    @Test
    void moreThanADayIsRefused() {
        assertThatThrownBy(() -> TimeWeightedAverage.over8Hours(List.of(part("1", 1000), part("1", 441))))
                .hasMessageContaining("calculation.time.overDay");
        assertThatThrownBy(() -> part("1", 0)).hasMessageContaining("calculation.time.notPositive");
        assertThatThrownBy(() -> part("-1", 1)).hasMessageContaining("calculation.concentration.negative");
        assertThatThrownBy(() -> TimeWeightedAverage.over8Hours(List.of()))
                .hasMessageContaining("calculation.exposures.none");
    }

    private static Part part(String concentration, int minutes) {
        return new Part(new BigDecimal(concentration), Duration.ofMinutes(minutes));
    }
}
