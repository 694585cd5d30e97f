package org.hoodkeeper.calculation;

import org.apache.commons.statistics.distribution.BetaDistribution;
import org.hoodkeeper.kernel.Refused;

/**
 * How often something was seen, with the exact two-sided 95 % interval (Clopper and Pearson, 1934).
 *
 * @param seen 0 to {@code of}
 * @param of how often one looked, at least 1
 */
public record Proportion(int seen, int of) {

    private static final double TAIL = 0.025;

    /** Refused as {@code calculation.proportion.range}. */
    public Proportion {
        if (of < 1 || seen < 0 || seen > of) {
            throw new Refused("calculation.proportion.range", seen, of);
        }
    }

    public double share() {
        return (double) seen / of;
    }

    public double lower() {
        return seen == 0 ? 0 : BetaDistribution.of(seen, of - seen + 1).inverseCumulativeProbability(TAIL);
    }

    public double upper() {
        return seen == of ? 1 : BetaDistribution.of(seen + 1, of - seen).inverseSurvivalProbability(TAIL);
    }
}
