package org.hoodkeeper.calculation.life;

import org.hoodkeeper.kernel.Refused;

/**
 * How long one part lasted, or has lasted so far.
 *
 * @param length wears, hours or whatever is counted, above 0
 * @param end how it ended
 */
public record Life(double length, End end) {

    public enum End {
        /** It failed at that length. */
        FAILED,
        /** Still good, or replaced while it was: it would have lasted longer. */
        STILL_GOOD
    }

    public Life {
        if (!(length > 0) || Double.isInfinite(length)) {
            throw new Refused("calculation.life.notPositive", length);
        }
    }

    boolean failed() {
        return end == End.FAILED;
    }
}
