package org.hoodkeeper.calculation;

import java.math.BigDecimal;
import java.math.RoundingMode;
import org.hoodkeeper.kernel.Refused;

/**
 * What a factor is worth when the device is off, or its visor up, for part of the exposed time: 1 ÷ ((1 − f) ÷ factor + f). A
 * higher class does not mend lifted visors. Arithmetic of the definition of the factor.
 */
public final class WornProtection {

    private WornProtection() {}

    /**
     * @param factor assigned protection factor, at least 1; refused as {@code calculation.factor.belowOne}
     * @param unworn part of the exposed time without it, 0 to 1; refused as {@code calculation.unworn.range}
     * @return the factor that is left, 20 digits
     */
    public static BigDecimal effective(BigDecimal factor, BigDecimal unworn) {
        requireFactor(factor);
        Figures.requireWithin(unworn, "0", "1", "calculation.unworn.range");
        BigDecimal passed =
                BigDecimal.ONE.subtract(unworn).divide(factor, Figures.INSIDE).add(unworn);
        return Figures.settle(BigDecimal.ONE.divide(passed, Figures.INSIDE));
    }

    /**
     * How many minutes of a shift it may be off before what is left no longer covers the ratio.
     *
     * @param minutes exposed time, above 0
     * @return whole minutes, rounded down; 0 where the factor does not cover the ratio even when always worn, all of them where
     *     the air is within its limit
     */
    public static int minutesAllowed(BigDecimal factor, HazardRatio ratio, int minutes) {
        requireFactor(factor);
        if (minutes <= 0) {
            throw new Refused("calculation.time.notPositive", minutes);
        }
        if (ratio.value().compareTo(BigDecimal.ONE) <= 0) {
            return minutes;
        }
        if (!ratio.isCoveredBy(factor) || factor.compareTo(BigDecimal.ONE) == 0) {
            return 0;
        }
        BigDecimal through = BigDecimal.ONE.divide(factor, Figures.INSIDE);
        BigDecimal share = BigDecimal.ONE
                .divide(ratio.value(), Figures.INSIDE)
                .subtract(through)
                .divide(BigDecimal.ONE.subtract(through), Figures.INSIDE);
        return Figures.settle(share.multiply(BigDecimal.valueOf(minutes)))
                .setScale(0, RoundingMode.FLOOR)
                .intValueExact();
    }

    private static void requireFactor(BigDecimal factor) {
        if (factor.compareTo(BigDecimal.ONE) < 0) {
            throw new Refused("calculation.factor.belowOne", factor);
        }
    }
}
