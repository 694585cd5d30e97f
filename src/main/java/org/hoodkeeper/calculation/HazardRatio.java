package org.hoodkeeper.calculation;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Collection;
import org.hoodkeeper.kernel.Refused;

/**
 * How many times the air outside exceeds the limit, and so the least factor that protects. No unit.
 *
 * @param value above 0, with 20 digits
 */
public record HazardRatio(BigDecimal value) {

    public HazardRatio {
        Figures.requirePositive(value, "calculation.hazardRatio.notPositive");
    }

    /** @param exposures at least one; none is refused as {@code calculation.exposures.none} */
    public static HazardRatio of(Collection<Exposure> exposures, MixtureEffect effect) {
        if (exposures.isEmpty()) {
            throw new Refused("calculation.exposures.none");
        }
        BigDecimal ratio = BigDecimal.ZERO;
        for (Exposure exposure : exposures) {
            ratio = switch (effect) {
                case ADDITIVE -> ratio.add(exposure.share(), Figures.INSIDE);
                case INDEPENDENT -> ratio.max(exposure.share());
            };
        }
        return new HazardRatio(Figures.settle(ratio));
    }

    /** A factor that equals the ratio is enough: 29 CFR 1910.134(d)(3)(i)(A), "meets or exceeds". */
    public boolean isCoveredBy(BigDecimal factor) {
        return value.compareTo(factor) <= 0;
    }

    /** Factor ÷ ratio, rounded down to two decimals: below 1 the factor falls short. */
    public BigDecimal marginOf(BigDecimal factor) {
        Figures.requirePositive(factor, "calculation.factor.notPositive");
        return Figures.settle(factor.divide(value, Figures.INSIDE)).setScale(2, RoundingMode.FLOOR);
    }
}
