package org.hoodkeeper.calculation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;

class BetweenWorkersTest {

    private static List<Sample> of(String... values) {
        return Stream.of(values).map(Sample::of).toList();
    }

    private static Map<String, List<Sample>> three() {
        Map<String, List<Sample>> workers = new LinkedHashMap<>();
        workers.put("A", of("0.62", "0.38", "1.10"));
        workers.put("B", of("0.15", "0.22", "0.12", "0.18"));
        workers.put("C", of("0.55", "0.81"));
        return workers;
    }

    /**
     * NIST StRD SiRstv: certified mean squares 1.27865654000000E-02 between and 1.08318280000000E-02 within; five readings each,
     * so the variance between is (0.0127865654 − 0.0108318280) ÷ 5 = 0.00039094748, and the share of it 3.4835 %.
     */
    @Test
    void theCertifiedAnalysisOfVarianceIsReproduced() {
        Map<String, List<Double>> instruments = Published.rows("nist_strd_sirstv").stream()
                .collect(Collectors.groupingBy(
                        row -> row.get("instrument"),
                        LinkedHashMap::new,
                        Collectors.mapping(row -> Double.valueOf(row.get("resistance")), Collectors.toList())));
        BetweenWorkers found = BetweenWorkers.ofLogarithms(instruments.values().stream()
                .map(values -> values.stream().mapToDouble(Double::doubleValue).toArray())
                .toList());
        assertThat(found.within()).isEqualTo(0.0108318280, within(1e-12));
        assertThat(found.between()).isEqualTo(0.00039094748, within(1e-12));
        assertThat(found.share()).isEqualTo(0.034835, within(1e-6));
        assertThat(found.test()).isEqualTo(BetweenWorkers.Test.GROUP);
    }

    /** Unequal numbers, by NumPy 2 and SciPy 1.17.1: mean squares 2.116659 and 0.140236, mean number 26/9, share 82.99 %. */
    @Test
    void threeWorkersWhoDifferAreLookedAtEach() {
        BetweenWorkers found = BetweenWorkers.of(three());
        assertThat(found.workers()).isEqualTo(3);
        assertThat(found.results()).isEqualTo(9);
        assertThat(found.mean()).isEqualTo(-1.0450197, within(1e-7));
        assertThat(found.within()).isEqualTo(0.1402364860, within(1e-9));
        assertThat(found.between()).isEqualTo(0.6841460944, within(1e-9));
        assertThat(found.share()).isEqualTo(0.8298890718, within(1e-9));
        assertThat(found.test()).isEqualTo(BetweenWorkers.Test.INDIVIDUAL);
    }

    /** 98.8 % of such workers exceed 0.1 too often, 30.2 % exceed 1, and 0.7 % exceed 5 (SciPy 1.17.1). */
    @Test
    void howManyWorkersExceedALimitTooOften() {
        BetweenWorkers found = BetweenWorkers.of(three());
        assertThat(found.shareOver(0.1)).isEqualTo(0.988246649, within(1e-8));
        assertThat(found.shareOver(1)).isEqualTo(0.301976854, within(1e-8));
        assertThat(found.shareOver(5)).isEqualTo(0.006859645, within(1e-8));
        assertThat(found.keeps(1)).isFalse();
        assertThat(found.keeps(5)).isTrue();
    }

    /** Means alike: the estimate between is negative and counts as 0. */
    @Test
    void workersWhoDoNotDifferAreOneGroup() {
        BetweenWorkers found = BetweenWorkers.of(Map.of("A", of("0.2", "0.4"), "B", of("0.4", "0.2")));
        assertThat(found.between()).isZero();
        assertThat(found.test()).isEqualTo(BetweenWorkers.Test.GROUP);
        assertThat(found.shareOver(0.1)).isEqualTo(1);
        assertThat(found.shareOver(100)).isZero();
    }

    @Test
    void tooLittleToTellIsRefusedWithTheReason() {
        refuses(Map.of("A", of("0.2", "0.4")), "calculation.between.workers");
        refuses(Map.of("A", of("0.2"), "B", of("0.4")), "calculation.between.repeats");
        refuses(Map.of("A", of("0.2", "0.2"), "B", of("0.4", "0.4")), "calculation.samples.same");
        refuses(
                Map.of("A", List.of(Sample.of("0.2"), Sample.below("0.1")), "B", of("0.4")),
                "calculation.samples.censored");
    }

    private static void refuses(Map<String, List<Sample>> workers, String code) {
        assertThatThrownBy(() -> BetweenWorkers.of(workers))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo(code));
    }
}
