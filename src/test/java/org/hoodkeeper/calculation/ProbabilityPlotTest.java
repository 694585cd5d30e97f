package org.hoodkeeper.calculation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

class ProbabilityPlotTest {

    /** Positions i ÷ (n + 1): 1/7 … 6/7; the score of one half is 0 and of 0.95 is 1.6449 (normal tables). */
    @Test
    void completeSamplesStandAtEvenSteps() {
        List<ProbabilityPlot.Point> points = ProbabilityPlot.of(ExposureStatisticsTest.SIX);
        assertThat(points).hasSize(6);
        assertThat(points.get(0).share()).isEqualTo(1 / 7.0, within(1e-12));
        assertThat(points.get(5).share()).isEqualTo(6 / 7.0, within(1e-12));
        assertThat(points.get(0).sample().value()).isEqualByComparingTo("0.38");
        assertThat(ProbabilityPlot.score(0.95)).isEqualTo(1.6449, within(1e-4));
    }

    /**
     * By hand after Helsel and Cohn: limits 1 and 10; 3 results at or above 10, of 8; between 1 and 10 two detected, with two
     * below 1 lower. Above 10: 3/8; above 1: 3/8 + 5/8 × 2/4 = 11/16.
     */
    @Test
    void severalDetectionLimitsPushTheOthersUp() {
        List<ProbabilityPlot.Point> points = ProbabilityPlot.of(List.of(
                Sample.below("1"),
                Sample.below("1"),
                Sample.of("3"),
                Sample.of("7"),
                Sample.below("10"),
                Sample.of("12"),
                Sample.of("15"),
                Sample.of("27")));
        assertThat(points).hasSize(5);
        double within = 11 / 16.0 - 3 / 8.0;
        assertThat(points.get(0).share()).isEqualTo(5 / 16.0 + within / 3, within(1e-12));
        assertThat(points.get(1).share()).isEqualTo(5 / 16.0 + 2 * within / 3, within(1e-12));
        assertThat(points.get(2).share()).isEqualTo(5 / 8.0 + 3 / 8.0 / 4, within(1e-12));
        assertThat(points.get(4).share()).isEqualTo(5 / 8.0 + 3 * 3 / 8.0 / 4, within(1e-12));
    }
}
