package org.hoodkeeper.calculation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.stream.Stream;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NormalityTestTest {

    /** W and p by SciPy 1.17.1 (stats.shapiro); the eleven weights are Shapiro and Wilk's own example (1965). */
    @ParameterizedTest
    @CsvSource({
        "1 2 4, 0.96428571, 0.63688685",
        "1 2 3 7, 0.88691238, 0.36899933",
        "0.62 0.38 1.10 0.55 0.81 0.47, 0.92612842, 0.55055249",
        "148 154 158 160 161 162 166 170 182 195 236, 0.78881469, 0.00670381",
        "65 61 63 86 70 55 74 35 72 68 45 58 99 12 33, 0.96793046, 0.82631096"
    })
    void wAndPAgreeWithAnIndependentProgram(String values, double w, double p) {
        double[] numbers =
                Stream.of(values.split(" ")).mapToDouble(Double::parseDouble).toArray();
        assertThat(NormalityTest.of(numbers).w()).isEqualTo(w, within(2e-7));
        assertThat(NormalityTest.of(numbers).p()).isEqualTo(p, within(2e-6));
    }

    /** W 0.981469, p 0.958623 of the logarithms of the six silica results (SciPy 1.17.1). */
    @Test
    void theSixResultsLieWellOnALognormalLine() {
        NormalityTest six = NormalityTest.ofLogarithms(ExposureStatisticsTest.SIX);
        assertThat(six.w()).isEqualTo(0.981469, within(1e-6));
        assertThat(six.p()).isEqualTo(0.958623, within(1e-5));
        assertThat(six.isDoubtful()).isFalse();
    }

    @Test
    void resultsBelowDetectionLeaveNoSuchTest() {
        assertThatThrownBy(() -> NormalityTest.ofLogarithms(
                        List.of(Sample.of("1"), Sample.of("2"), Sample.of("3"), Sample.below("1"))))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo("calculation.samples.censored"));
    }
}
