package org.hoodkeeper.calculation.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.assertj.core.data.Percentage;
import org.hoodkeeper.calculation.Published;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TrendTest {

    private static final Percentage TEN_DIGITS = Percentage.withPercentage(1e-8);

    private static List<Point> points(String dataSet) {
        return Published.rows(dataSet).stream()
                .map(row -> new Point(Double.parseDouble(row.get("x")), Double.parseDouble(row.get("y"))))
                .toList();
    }

    private static List<Point> weekly(double... flows) {
        List<Point> points = new ArrayList<>();
        for (double flow : flows) {
            points.add(new Point(points.size(), flow));
        }
        return points;
    }

    /** NIST StRD, Norris: certified values. */
    @Test
    void norris() {
        LeastSquares line = LeastSquares.of(points("nist_strd_norris"));
        assertThat(line.n()).isEqualTo(36);
        assertThat(line.slope()).isCloseTo(1.00211681802045, TEN_DIGITS);
        assertThat(line.slopeDeviation()).isCloseTo(0.429796848199937E-03, TEN_DIGITS);
        assertThat(line.intercept()).isCloseTo(-0.262323073774029, TEN_DIGITS);
        assertThat(line.interceptDeviation()).isCloseTo(0.232818234301152, TEN_DIGITS);
        assertThat(line.residualDeviation()).isCloseTo(0.884796396144373, TEN_DIGITS);
        assertThat(line.determination()).isCloseTo(0.999993745883712, TEN_DIGITS);
    }

    /** NIST StRD, univariate: certified mean, standard deviation and lag-1 autocorrelation; NumAcc4 breaks naive sums. */
    @ParameterizedTest
    @CsvSource({
        "nist_strd_lew, -177.435, 277.332168044316, -0.307304800605679",
        "nist_strd_mavro, 2.001856, 0.000429123454003053, 0.937989183438248",
        "nist_strd_michelso, 299.8524, 0.0790105478190518, 0.535199668621283",
        "nist_strd_numacc1, 10000002, 1, -0.5",
        "nist_strd_numacc3, 1000000.2, 0.1, -0.999",
        "nist_strd_numacc4, 10000000.2, 0.1, -0.999"
    })
    void univariate(String dataSet, double mean, double deviation, double autocorrelation) {
        double[] values = Published.column(dataSet, "y");
        assertThat(Spread.mean(values)).isCloseTo(mean, Percentage.withPercentage(1e-12));
        assertThat(Spread.deviation(values)).isCloseTo(deviation, Percentage.withPercentage(1e-5));
        assertThat(Spread.autocorrelation(values)).isCloseTo(autocorrelation, within(1e-7));
    }

    /** Sen (1968), pages 1380 and 1381: slope 4, 93 % interval 26/7 to 35/8; intercept 4 or 6 by the convention. */
    @Test
    void sensExample() {
        TheilSen line = TheilSen.of(points("sen1968_theil"));
        assertThat(line.slope()).isEqualTo(4);
        assertThat(line.throughMedians()).isEqualTo(4);
        assertThat(line.ofResiduals()).isEqualTo(6);
        assertThat(line.interval(0.93).lower()).isCloseTo(26.0 / 7, within(1e-12));
        assertThat(line.interval(0.93).upper()).isCloseTo(35.0 / 8, within(1e-12));
    }

    /**
     * Weekly 196, 193, 191, 188, 184, 182 against 170, computed with an independent program: Theil–Sen −3.00 a week, at 170 in week
     * 9.0; least squares −2.86, in week 9.15; the bound (t 2.132, four degrees of freedom) in week 8.44.
     */
    @Test
    void aFilterLoadsUpAndIsServedByWeekEight() {
        FlowTrend trend = Objects.requireNonNull(FlowTrend.of(weekly(196, 193, 191, 188, 184, 182), 170, 5, 26));
        assertThat(trend.robust().slope()).isCloseTo(-3.00, within(0.001));
        assertThat(trend.robustMeets()).isCloseTo(9.0, within(0.001));
        assertThat(trend.line().slope()).isCloseTo(-2.857, within(0.001));
        assertThat(trend.lineMeets()).isCloseTo(9.15, within(0.005));
        assertThat(trend.boundMeets()).isCloseTo(8.44, within(0.005));
        assertThat(trend.actBefore()).isCloseTo(8.44, within(0.005));
        assertThat(trend.step()).isNull();
    }

    @Test
    void aWildReadingDoesNotMoveTheRobustLineMuch() {
        TheilSen calm = TheilSen.of(weekly(196, 193, 191, 188, 184, 182, 179));
        TheilSen wild = TheilSen.of(weekly(196, 193, 191, 150, 184, 182, 179));
        assertThat(wild.slope()).isCloseTo(calm.slope(), within(0.4));
    }

    /** A drop of 14 in a row that falls by 1 is a fault; the line begins after it. */
    @Test
    void aSuddenDropIsAFaultAndNotAgeing() {
        List<Point> points = weekly(198, 197, 196, 195, 181, 180, 179, 178, 177);
        StepChange step = Objects.requireNonNull(StepChange.newest(points, 5));
        assertThat(step.at()).isEqualTo(4);
        assertThat(step.size()).isCloseTo(-13, within(0.001));
        FlowTrend trend = Objects.requireNonNull(FlowTrend.of(points, 170, 5, 26));
        assertThat(trend.points()).hasSize(5);
        assertThat(trend.robust().slope()).isCloseTo(-1, within(1e-9));
        assertThat(trend.robustMeets()).isCloseTo(15, within(1e-9));
        assertThat(StepChange.newest(weekly(198, 197, 196, 195, 194, 193), 5)).isNull();
        assertThat(StepChange.newest(weekly(198, 197, 196, 192, 191, 190), 5))
                .as("smaller than an indicator errs by chance")
                .isNull();
    }

    @Test
    void aFlowThatDoesNotFallMeetsNothing() {
        FlowTrend trend = Objects.requireNonNull(FlowTrend.of(weekly(190, 190.5, 190, 190.5, 190.5), 170, 5, 26));
        assertThat(trend.robustMeets()).isNull();
        assertThat(trend.actBefore()).isNull();
    }

    @Test
    void threeChecksSayNothingYet() {
        assertThat(FlowTrend.of(weekly(196, 193, 191), 170, 5, 26)).isNull();
        assertThatThrownBy(() -> LeastSquares.of(weekly(196, 193))).isInstanceOf(Refused.class);
        assertThatThrownBy(() -> TheilSen.of(List.of(new Point(1, 2), new Point(1, 3))))
                .isInstanceOf(Refused.class);
    }
}
