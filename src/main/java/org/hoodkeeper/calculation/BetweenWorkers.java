package org.hoodkeeper.calculation;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.hoodkeeper.kernel.Refused;

/**
 * Whether people of a group that is taken as exposed alike differ so much from each other that one must look at each: BOHS and
 * NVvA, Testing compliance (2011), from memory. One-way analysis of variance of the logarithms with workers as random effects;
 * with unequal numbers the mean number is (N − Σn² ÷ N) ÷ (k − 1). A negative estimate of the variance between workers is 0.
 *
 * @param workers how many workers, at least 2
 * @param results how many results of theirs
 * @param mean of the logarithms
 * @param between variance between workers, of the logarithms, at least 0
 * @param within variance within a worker, of the logarithms, above 0
 */
public record BetweenWorkers(int workers, int results, double mean, double between, double within) {

    /** Above this share of the whole variance each worker is looked at: BOHS and NVvA 2011 (from memory, high). */
    public static final double INDIVIDUAL_ABOVE = 0.20;

    /** The share of workers whose own exposure may exceed the limit too often: BOHS and NVvA 2011 (from memory, high). */
    public static final double MOST_OVER = 0.20;

    private static final int FEWEST_WORKERS = 2;
    private static final double Z95 = 1.6448536269514722;
    private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

    /** What the test is about. */
    public enum Test {
        GROUP,
        INDIVIDUAL
    }

    /**
     * @param byWorker the results of each worker; results without a name do not enter
     * @throws Refused {@code calculation.between.workers} below two workers; {@code calculation.between.repeats} where nobody was
     *     sampled twice; {@code calculation.samples.censored} where any is below detection; {@code calculation.samples.same} where
     *     nothing varies within the workers
     */
    public static BetweenWorkers of(Map<String, List<Sample>> byWorker) {
        if (byWorker.values().stream().flatMap(Collection::stream).anyMatch(one -> !one.isDetected())) {
            throw new Refused("calculation.samples.censored");
        }
        return ofLogarithms(byWorker.values().stream()
                .map(samples -> samples.stream().mapToDouble(Sample::ln).toArray())
                .toList());
    }

    static BetweenWorkers ofLogarithms(Collection<double[]> groups) {
        int k = groups.size();
        int n = 0;
        double sum = 0;
        double squaredNumbers = 0;
        for (double[] group : groups) {
            n += group.length;
            squaredNumbers += (double) group.length * group.length;
            for (double value : group) {
                sum += value;
            }
        }
        if (k < FEWEST_WORKERS) {
            throw new Refused("calculation.between.workers", k, FEWEST_WORKERS);
        }
        if (n == k) {
            throw new Refused("calculation.between.repeats", k);
        }
        double grand = sum / n;
        double squaresBetween = 0;
        double squaresWithin = 0;
        for (double[] group : groups) {
            double own = 0;
            for (double value : group) {
                own += value;
            }
            own /= group.length;
            squaresBetween += group.length * (own - grand) * (own - grand);
            for (double value : group) {
                squaresWithin += (value - own) * (value - own);
            }
        }
        double within = squaresWithin / (n - k);
        if (within < 1e-12) {
            throw new Refused("calculation.samples.same", n);
        }
        double number = (n - squaredNumbers / n) / (k - 1);
        double between = Math.max(0, (squaresBetween / (k - 1) - within) / number);
        return new BetweenWorkers(k, n, grand, between, within);
    }

    /** Variance between workers ÷ whole variance, 0 to 1. */
    public double share() {
        return between / (between + within);
    }

    /** Exactly a fifth is still the group's. */
    public Test test() {
        return share() > INDIVIDUAL_ABOVE ? Test.INDIVIDUAL : Test.GROUP;
    }

    /**
     * The part of such workers who exceed the limit in more than 5 % of shifts, 0 to 1: those whose own mean of logarithms lies
     * above ln limit − 1.645 × deviation within. With no variance between workers all or none.
     *
     * @param limit above 0
     */
    public double shareOver(double limit) {
        double room = Math.log(limit) - mean - Z95 * Math.sqrt(within);
        if (between == 0) {
            return room < 0 ? 1 : 0;
        }
        return NORMAL.survivalProbability(room / Math.sqrt(between));
    }

    /** Whether few enough workers exceed it: each is protected by the air itself. */
    public boolean keeps(double limit) {
        return shareOver(limit) < MOST_OVER;
    }
}
