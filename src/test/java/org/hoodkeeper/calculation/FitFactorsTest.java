package org.hoodkeeper.calculation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import org.hoodkeeper.calculation.FitFactors.Judgement;
import org.hoodkeeper.calculation.FitFactors.Reading;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FitFactorsTest {

    private static final BigDecimal HALF = new BigDecimal("100");

    /**
     * Overall = N ÷ Σ(1/ff), 29 CFR 1910.134 App. A Part I.C.2(b)(8) (from memory); expected values from an independent
     * calculation in exact fractions.
     */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "200 150 100 120 180 90 200 | 135.4839",
                "300 250 90 400 150 | 181.0865",
                "120 80 200 100 | 111.6279",
                "300 300 300 300 300 300 300 | 300"
            })
    void overallIsTheHarmonicMean(String exercises, String expected) {
        assertThat(factors(exercises).overall()).isCloseTo(new BigDecimal(expected), within("0.00005"));
    }

    /**
     * The same seven numbers, two verdicts. US: 29 CFR 1910.134(f)(7), overall at least 100. UK: INDG479 (from memory), every
     * exercise at least 100.
     */
    @Test
    void sameSevenNumbersPassInOneRuleSetAndFailInTheOther() {
        FitFactors test = factors("200 150 100 120 180 90 200");

        Judgement overall = test.judge(Reading.OVERALL, HALF);
        assertThat(overall.passed()).isTrue();
        assertThat(overall.overall()).isEqualByComparingTo("135.4");
        assertThat(overall.below()).containsExactly(6);

        Judgement every = test.judge(Reading.EVERY_EXERCISE, HALF);
        assertThat(every.passed()).isFalse();
        assertThat(every.below()).containsExactly(6);
    }

    /** 29 CFR 1910.134(f)(7): "equal to or greater than". 7 × 1/100 must not fall a hair short of 100. */
    @ParameterizedTest
    @CsvSource({"100, 100", "300, 300", "500, 500", "2000, 2000", "700, 700"})
    void levelItselfPasses(String factor, String level) {
        FitFactors test = factors(String.join(" ", java.util.Collections.nCopies(7, factor)));
        assertThat(test.judge(Reading.OVERALL, new BigDecimal(level)).passed()).isTrue();
        assertThat(test.judge(Reading.EVERY_EXERCISE, new BigDecimal(level)).passed())
                .isTrue();
    }

    @Test
    void justBelowTheLevelFails() {
        FitFactors test = factors("100 100 100 100 100 100 99.99");
        assertThat(test.judge(Reading.OVERALL, HALF).passed()).isFalse();
        assertThat(test.judge(Reading.OVERALL, HALF).overall()).isEqualByComparingTo("99.9");
    }

    /** Full mask: 500 overall in the US, (f)(7); 2,000 on every exercise in the UK, INDG479 (from memory). */
    @Test
    void fullMaskOfEightHundredPassesUsOnly() {
        FitFactors test = factors("800 900 2500 850 700 3000 950");
        assertThat(test.judge(Reading.OVERALL, new BigDecimal("500")).passed()).isTrue();
        assertThat(test.judge(Reading.EVERY_EXERCISE, new BigDecimal("2000")).below())
                .containsExactly(1, 2, 4, 5, 7);
    }

    @Test
    void impossibleTestsAreRefused() {
        assertThatThrownBy(() -> factors("120 80 200")).hasMessageContaining("calculation.fitTest.exercises");
        assertThatThrownBy(() -> factors("120 80 200 0")).hasMessageContaining("calculation.fitFactor.notPositive");
        assertThatThrownBy(() -> factors("120 80 200 1000001")).hasMessageContaining("calculation.fitFactor.range");
        assertThatThrownBy(() -> factors("120 80 200 100").judge(Reading.OVERALL, BigDecimal.ZERO))
                .hasMessageContaining("calculation.fitTest.level");
    }

    private static FitFactors factors(String exercises) {
        List<BigDecimal> values =
                Arrays.stream(exercises.trim().split(" ")).map(BigDecimal::new).toList();
        return new FitFactors(values);
    }

    private static org.assertj.core.data.Offset<BigDecimal> within(String offset) {
        return org.assertj.core.data.Offset.offset(new BigDecimal(offset));
    }
}
