package org.hoodkeeper.calculation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.List;
import java.util.stream.IntStream;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Draws, sizes of draws, and what may be said of them. */
class SamplingTest {

    /** Published worked sizes: 240: 52 and 27; 60: 38 and 23; 500: 56 and 28; and the edges. */
    @ParameterizedTest
    @CsvSource({
        "240, 0.05, 52",
        "240, 0.10, 27",
        "60, 0.05, 38",
        "60, 0.10, 23",
        "500, 0.05, 56",
        "500, 0.10, 28",
        "1, 0.05, 1",
        "10, 0.01, 10",
        "10, 1, 1"
    })
    void aZeroDefectClaimNeedsThatMany(int lot, String share, int size) {
        assertThat(ZeroDefectSample.size(lot, new BigDecimal(share))).isEqualTo(size);
    }

    /** The same by exact fractions, without any library: C(lot − faulty, n) ÷ C(lot, n) first at most 0.05. */
    @ParameterizedTest
    @CsvSource({"240, 12", "60, 3", "500, 25", "240, 24", "37, 2", "19, 1", "1000, 10"})
    void theSizeAgreesWithExactFractions(int lot, int faulty) {
        int n = 0;
        BigDecimal none = BigDecimal.ONE;
        while (none.compareTo(new BigDecimal("0.05")) > 0) {
            none = none.multiply(BigDecimal.valueOf(lot - faulty - n))
                    .divide(BigDecimal.valueOf(lot - n), java.math.MathContext.DECIMAL128);
            n++;
        }
        BigDecimal share = BigDecimal.valueOf(faulty).divide(BigDecimal.valueOf(lot), 12, java.math.RoundingMode.DOWN);
        assertThat(ZeroDefectSample.size(lot, share)).isEqualTo(n);
    }

    /** 2 of 30: 0.8 % to 22.1 %; none of 30: up to 11.6 % (beta quantiles by SciPy 1.17.1). */
    @Test
    void theIntervalIsExact() {
        Proportion lifted = new Proportion(2, 30);
        assertThat(lifted.lower()).isEqualTo(0.00817813, within(1e-7));
        assertThat(lifted.upper()).isEqualTo(0.22073540, within(1e-7));
        assertThat(new Proportion(0, 30).lower()).isZero();
        assertThat(new Proportion(0, 30).upper()).isEqualTo(0.11570331, within(1e-7));
        assertThat(new Proportion(30, 30).upper()).isEqualTo(1);
    }

    /**
     * By an independent program with the recurrence that the platform documents for Random, seed 42: nextInt(5), (4), (3), (2)
     * all give 0, so that 1 2 3 4 5 becomes 2 3 4 5 1.
     */
    @Test
    void theSameSeedDrawsTheSame() {
        List<Integer> five = List.of(1, 2, 3, 4, 5);
        assertThat(RandomDraw.of(five, 5, 42)).containsExactly(2, 3, 4, 5, 1);
        assertThat(RandomDraw.of(five, 2, 42)).containsExactly(2, 3);
    }

    @Test
    void everyOneIsDrawnAboutAsOften() {
        List<Integer> ten = IntStream.range(0, 10).boxed().toList();
        int[] drawn = new int[10];
        for (int seed = 0; seed < 10_000; seed++) {
            RandomDraw.of(ten, 3, seed * 7919L).forEach(one -> drawn[one]++);
        }
        for (int count : drawn) {
            assertThat(count).isBetween(2_750, 3_250);
        }
    }

    @Test
    void noMoreCanBeDrawnThanThereAre() {
        assertThatThrownBy(() -> RandomDraw.of(List.of(1, 2), 3, 1))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo("calculation.draw.count"));
    }
}
