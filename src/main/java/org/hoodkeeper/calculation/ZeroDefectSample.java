package org.hoodkeeper.calculation;

import java.math.BigDecimal;
import java.math.RoundingMode;
import org.apache.commons.statistics.distribution.HypergeometricDistribution;
import org.hoodkeeper.kernel.Refused;

/**
 * How many of a lot must be looked at, drawn at random, so that seeing no fault says with 95 % confidence that fewer than a share
 * of it are faulty. Hypergeometric: the draw is without putting back.
 */
public final class ZeroDefectSample {

    private static final double DOUBT = 0.05;
    private static final int MOST = 1_000_000;

    private ZeroDefectSample() {}

    /**
     * @param lot how many there are, 1 to 1 000 000; refused as {@code calculation.lot.range}
     * @param share of them that must not be faulty unseen, above 0 and at most 1, for instance 0.05; refused as
     *     {@code calculation.share.range}
     * @return the smallest number to draw, at most the lot
     */
    public static int size(int lot, BigDecimal share) {
        if (lot < 1 || lot > MOST) {
            throw new Refused("calculation.lot.range", lot, 1, MOST);
        }
        if (share.signum() <= 0 || share.compareTo(BigDecimal.ONE) > 0) {
            throw new Refused("calculation.share.range", share);
        }
        int faulty = share.multiply(BigDecimal.valueOf(lot))
                .setScale(0, RoundingMode.CEILING)
                .intValueExact();
        int low = 1;
        int high = lot;
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (HypergeometricDistribution.of(lot, faulty, middle).probability(0) <= DOUBT) {
                high = middle;
            } else {
                low = middle + 1;
            }
        }
        return low;
    }
}
