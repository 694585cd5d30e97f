package org.hoodkeeper.calculation.air;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * What a component may be, both ends included.
 *
 * @param least none where only a most is set
 * @param most none where it is not known at all
 * @param isWhole whether all that limits it is known; where it is not, nothing is within, and what is known may still be exceeded
 */
public record AirLimit(@Nullable BigDecimal least, @Nullable BigDecimal most, boolean isWhole) {

    /** @param most none where it depends on something nobody told */
    public static AirLimit of(@Nullable BigDecimal least, @Nullable BigDecimal most) {
        return new AirLimit(least, most, most != null);
    }

    /** Both at once. */
    public AirLimit and(AirLimit other) {
        return new AirLimit(
                least == null || other.least == null ? either(least, other.least) : least.max(other.least),
                most == null || other.most == null ? either(most, other.most) : most.min(other.most),
                isWhole && other.isWhole);
    }

    private static @Nullable BigDecimal either(@Nullable BigDecimal one, @Nullable BigDecimal other) {
        return one == null ? other : one;
    }

    /** @param about how far the true value may lie from the measured one */
    AirSample.Outcome judge(BigDecimal measured, BigDecimal about) {
        boolean exceeds = (most != null && measured.add(about).compareTo(most) > 0)
                || (least != null && measured.subtract(about).compareTo(least) < 0);
        if (exceeds) {
            return AirSample.Outcome.OUTSIDE;
        }
        return isWhole ? AirSample.Outcome.WITHIN : AirSample.Outcome.UNKNOWN;
    }
}
