package org.hoodkeeper.calculation;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.commons.numbers.rootfinder.BrentSolver;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.hoodkeeper.kernel.Refused;

/**
 * How many standard deviations above the mean the upper tolerance limit of the 95th percentile lies, for n normal values:
 * k = t'(confidence; n − 1, 1.645 √n) ÷ √n with the non-central t distribution. At 70 % confidence this is the U_R of EN
 * 689:2018, Annex F; at 95 % the usual 95/95 factor.
 *
 * <p>The distribution is integrated here, since the libraries for Java have none: P(T ≤ t) is the mean of Φ(t s − δ) over s,
 * the root of a χ² value over its degrees of freedom. Right to 1e-6 from n = 2 to 10 000, far better than the four digits printed.
 */
public final class ToleranceFactor {

    /** What share of shifts must lie below the limit: the 95th percentile. */
    private static final double PERCENTILE = 0.95;

    private static final int STEPS = 4_000;
    private static final int MOST = 10_000;
    private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);
    private static final Map<Asked, Double> KNOWN = new ConcurrentHashMap<>();

    /** How sure one wants to be. */
    public enum Confidence {
        /** EN 689:2018. */
        SEVENTY(0.70),
        NINETY_FIVE(0.95);

        private final double share;

        Confidence(double share) {
            this.share = share;
        }
    }

    private record Asked(int n, Confidence confidence) {}

    private ToleranceFactor() {}

    /** @param n number of values, 2 to 10 000; refused as {@code calculation.samples.count} */
    public static double of(int n, Confidence confidence) {
        if (n < 2 || n > MOST) {
            throw new Refused("calculation.samples.count", n, 2, MOST);
        }
        return KNOWN.computeIfAbsent(new Asked(n, confidence), ToleranceFactor::solve);
    }

    private static double solve(Asked asked) {
        double root = Math.sqrt(asked.n());
        double shift = NORMAL.inverseCumulativeProbability(PERCENTILE) * root;
        return new BrentSolver(1e-9, 1e-9, 1e-12)
                .findRoot(k -> probability(k * root, asked.n() - 1, shift) - asked.confidence().share, 0.5, 60);
    }

    /** P(T ≤ t) of the non-central t distribution, by Simpson's rule over s. */
    private static double probability(double t, int freedom, double shift) {
        ChiSquaredDistribution chi = ChiSquaredDistribution.of(freedom);
        double low = Math.sqrt(chi.inverseCumulativeProbability(1e-13) / freedom);
        double high = Math.sqrt(chi.inverseSurvivalProbability(1e-13) / freedom);
        double step = (high - low) / STEPS;
        double sum = 0;
        for (int i = 0; i <= STEPS; i++) {
            double s = low + i * step;
            double weight = i == 0 || i == STEPS ? 1 : i % 2 == 0 ? 2 : 4;
            double density = 2 * freedom * s * chi.density(freedom * s * s);
            sum += weight * density * NORMAL.cumulativeProbability(t * s - shift);
        }
        return sum * step / 3;
    }
}
