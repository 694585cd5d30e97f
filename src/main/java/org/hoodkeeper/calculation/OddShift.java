package org.hoodkeeper.calculation;

import java.math.BigDecimal;
import org.hoodkeeper.kernel.Refused;

/** How much of an eight-hour limit is left on a longer shift. */
public enum OddShift {
    /** The limit stays: the average is taken over eight hours whatever the shift, 29 CFR 1910.1000(d)(1). */
    NONE {
        @Override
        BigDecimal share(BigDecimal hours) {
            return BigDecimal.ONE;
        }
    },
    /**
     * Brief and Scala (1975), daily model: 8 ÷ h × (24 − h) ÷ 16, for less time to recover as well as longer exposure. From
     * memory, high; 12 h give one half.
     */
    BRIEF_SCALA {
        @Override
        BigDecimal share(BigDecimal hours) {
            return EIGHT.multiply(new BigDecimal("24").subtract(hours))
                    .divide(hours.multiply(new BigDecimal("16")), Figures.INSIDE);
        }
    },
    /** 8 ÷ h: lead, 29 CFR 1910.1025(c)(2), 400 ÷ h µg/m³. From memory, high; 10 h leave 40 of 50. */
    PROPORTIONAL {
        @Override
        BigDecimal share(BigDecimal hours) {
            return EIGHT.divide(hours, Figures.INSIDE);
        }
    };

    private static final BigDecimal EIGHT = new BigDecimal("8");

    abstract BigDecimal share(BigDecimal hours);

    /**
     * @param hours length of the shift, above 0 and at most 23; up to eight hours the whole limit is left. Refused as
     *     {@code calculation.shift.hours}
     * @return part of the limit that counts, above 0 and at most 1
     */
    public BigDecimal of(BigDecimal hours) {
        if (hours.signum() <= 0 || hours.compareTo(new BigDecimal("23")) > 0) {
            throw new Refused("calculation.shift.hours", hours, 0, 23);
        }
        return hours.compareTo(EIGHT) <= 0 ? BigDecimal.ONE : Figures.settle(share(hours));
    }
}
