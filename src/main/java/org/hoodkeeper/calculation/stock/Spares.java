package org.hoodkeeper.calculation.stock;

import org.apache.commons.statistics.distribution.BinomialDistribution;
import org.apache.commons.statistics.distribution.PoissonDistribution;
import org.hoodkeeper.kernel.Refused;

/** How many more sets than people, and how much stock to have when the next order goes out. */
public final class Spares {

    private static final int MOST = 100_000;

    private Spares() {}

    /**
     * The fewest spare sets with which at least {@code needed} are ready with that probability, each set being away by chance and
     * on its own (binomial). Sets that fail together, a lot for instance, are not in it: take the largest lot away and look again.
     *
     * @param needed sets that must be ready, 0 to 100,000
     * @param away share of time that a set is in the wash, held or under repair, 0 to below 1
     * @param level wanted probability, above 0, below 1
     */
    public static int sets(int needed, double away, double level) {
        require(level);
        if (needed < 0 || needed > MOST || !(away >= 0 && away < 1)) {
            throw new Refused("calculation.spares.range", needed, away);
        }
        int spares = 0;
        while (needed > 0 && ready(needed + spares, away, needed) < level) {
            spares++;
        }
        return spares;
    }

    /** Probability that at least {@code needed} of {@code all} sets are ready. */
    public static double ready(int all, double away, int needed) {
        return needed == 0 ? 1 : BinomialDistribution.of(all, 1 - away).survivalProbability(needed - 1);
    }

    /**
     * The smallest stock on which to order again: demand until the delivery is covered with that probability (Poisson).
     *
     * @param mean usual demand between order and delivery, 0 to 100,000 pieces
     * @param level wanted probability, above 0, below 1
     */
    public static int reorderPoint(double mean, double level) {
        require(level);
        if (!(mean >= 0 && mean <= MOST)) {
            throw new Refused("calculation.demand.range", mean);
        }
        return mean == 0 ? 0 : PoissonDistribution.of(mean).inverseCumulativeProbability(level);
    }

    /** Probability that demand until the delivery is at most that. */
    public static double covered(double mean, int stock) {
        return mean == 0 ? 1 : PoissonDistribution.of(mean).cumulativeProbability(stock);
    }

    private static void require(double level) {
        if (!(level > 0 && level < 1)) {
            throw new Refused("calculation.level.range", level);
        }
    }
}
