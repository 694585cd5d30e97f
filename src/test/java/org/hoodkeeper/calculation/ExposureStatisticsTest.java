package org.hoodkeeper.calculation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.hoodkeeper.calculation.ExposureStatistics.Statistic;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;

class ExposureStatisticsTest {

    /** Six results, mg/m³; figures by SciPy 1.17.1, the hazard ratios at 0.1 mg/m³ are 6.6, 11.5 and 14.2. */
    static final List<Sample> SIX = samples("0.62", "0.38", "1.10", "0.55", "0.81", "0.47");

    static List<Sample> samples(String... values) {
        return Stream.of(values).map(Sample::of).toList();
    }

    private static List<Sample> and(List<Sample> samples, Sample... more) {
        List<Sample> all = new ArrayList<>(samples);
        all.addAll(List.of(more));
        return all;
    }

    @Test
    void sixResultsGiveAllThreeFigures() {
        ExposureStatistics six = ExposureStatistics.of(SIX);
        assertThat(six.geometricMean()).isEqualTo(0.615298, within(1e-6));
        assertThat(six.geometricDeviation()).isEqualTo(1.465575, within(1e-6));
        assertThat(six.mean()).isEqualTo(0.655, within(1e-12));
        assertThat(six.p95()).isEqualTo(1.153837, within(1e-6));
        assertThat(six.utl70()).isEqualTo(1.419394, within(1e-6));
        assertThat(six.utl95()).isEqualTo(2.538581, within(1e-5));
        assertThat(six.deciding(Statistic.UTL95_70)).isEqualByComparingTo("1.42");
        assertThat(six.deciding(Statistic.UTL95_95)).isEqualByComparingTo("2.54");
        assertThat(six.deciding(Statistic.P95)).isEqualByComparingTo("1.16");
        assertThat(six.deciding(Statistic.MEAN)).isEqualByComparingTo("0.655");
    }

    /** The same with 1.9 and 1.6 added: GSD 1.79, UTL 2.67, so that a factor of 20 fails and 40 passes (SciPy 1.17.1). */
    @Test
    void twoHighResultsMoveTheUpperLimitMoreThanTheMean() {
        ExposureStatistics eight = ExposureStatistics.of(and(SIX, Sample.of("1.9"), Sample.of("1.6")));
        assertThat(eight.geometricDeviation()).isEqualTo(1.789963, within(1e-6));
        assertThat(eight.utl70()).isEqualTo(2.666795, within(1e-6));
        HazardRatio ratio = HazardRatio.of(
                List.of(Exposure.of("silica", eight.deciding(Statistic.UTL95_70), new BigDecimal("0.1"))),
                MixtureEffect.ADDITIVE);
        assertThat(ratio.value()).isEqualByComparingTo("26.7");
        assertThat(ratio.isCoveredBy(new BigDecimal("20"))).isFalse();
        assertThat(ratio.isCoveredBy(new BigDecimal("40"))).isTrue();
    }

    /** Made-up lognormal check of the published definitions: GM 0.229502, GSD 1.527392, X95 0.460637, 0.57948, 1.10361. */
    @Test
    void theLognormalExampleIsReproduced() {
        ExposureStatistics check = ExposureStatistics.of(samples("0.12", "0.30", "0.22", "0.18", "0.41", "0.25"));
        assertThat(check.geometricMean()).isEqualTo(0.229502, within(1e-6));
        assertThat(check.geometricDeviation()).isEqualTo(1.527392, within(1e-6));
        assertThat(check.p95()).isEqualTo(0.460637, within(1e-6));
        assertThat(check.utl70()).isEqualTo(0.57948, within(1e-5));
        assertThat(check.utl95()).isEqualTo(1.10361, within(1e-5));
    }

    /** Maximum likelihood of left-censored normal logarithms by SciPy 1.17.1 (norm.fit of CensoredData, polished). */
    @Test
    void resultsBelowDetectionAreFittedNotReplaced() {
        ExposureStatistics nine = ExposureStatistics.of(and(
                samples("0.12", "0.30", "0.22", "0.18", "0.41", "0.25"),
                Sample.below("0.10"),
                Sample.below("0.10"),
                Sample.below("0.15")));
        assertThat(nine.below()).isEqualTo(3);
        assertThat(nine.geometricMean()).isEqualTo(0.158159, within(1e-5));
        assertThat(nine.geometricDeviation()).isEqualTo(1.990927, within(1e-5));
        assertThat(nine.p95()).isEqualTo(0.490903, within(1e-5));
        assertThat(nine.utl70()).isEqualTo(0.712937, within(1e-5));
        assertThat(nine.utl95()).isEqualTo(2.03187, within(1e-4));
    }

    @Test
    void fewerThanSixGiveNoFigureButAReason() {
        refuses(SIX.subList(0, 5), "calculation.samples.few");
    }

    @Test
    void mostBelowDetectionGiveNoFigure() {
        refuses(
                and(
                        samples("0.2", "0.3"),
                        Sample.below("0.1"),
                        Sample.below("0.1"),
                        Sample.below("0.1"),
                        Sample.below("0.1")),
                "calculation.samples.detected");
        refuses(
                and(
                        samples("0.2", "0.3", "0.4"),
                        Sample.below("0.1"),
                        Sample.below("0.1"),
                        Sample.below("0.1"),
                        Sample.below("0.1")),
                "calculation.samples.detected");
    }

    @Test
    void theSameValueSixTimesIsNoSampleOfAnythingThatVaries() {
        refuses(samples("0.2", "0.2", "0.2", "0.2", "0.2", "0.2"), "calculation.samples.same");
    }

    @Test
    void aNegativeOrZeroConcentrationIsRefused() {
        for (String value : List.of("0", "-0.1")) {
            assertThatThrownBy(() -> Sample.of(value))
                    .isInstanceOfSatisfying(
                            Refused.class,
                            refused -> assertThat(refused.code()).isEqualTo("calculation.concentration.notPositive"));
        }
    }

    private static void refuses(List<Sample> samples, String code) {
        assertThatThrownBy(() -> ExposureStatistics.of(samples))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo(code));
    }
}
