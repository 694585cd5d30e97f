package org.hoodkeeper.calculation;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * The maximum use concentration of a device for a substance: factor × limit, cut down to the lower of the immediately
 * dangerous concentration and what the cartridge may meet. 29 CFR 1910.134(b) and (d)(3)(i)(B)(3). It is never used
 * <em>inside</em> an immediately dangerous air, (d)(3)(i)(B)(2): {@link Adequacy} refuses that air whatever this figure says.
 *
 * @param concentration in the unit of the limit
 * @param setBy what decides; where two are equal the factor, then the dangerous concentration
 */
public record MaximumUse(BigDecimal concentration, SetBy setBy) {

    /** What the concentration comes from. */
    public enum SetBy {
        FACTOR,
        IDLH,
        FILTER
    }

    /**
     * @param factor assigned protection factor, above 0
     * @param limit long-term, short-term or ceiling limit, above 0
     */
    public static MaximumUse of(
            BigDecimal factor, BigDecimal limit, @Nullable BigDecimal idlh, @Nullable BigDecimal filterLimit) {
        Figures.requirePositive(factor, "calculation.factor.notPositive");
        Figures.requirePositive(limit, "calculation.limit.notPositive");
        return new MaximumUse(factor.multiply(limit), SetBy.FACTOR)
                .cutTo(idlh, SetBy.IDLH)
                .cutTo(filterLimit, SetBy.FILTER);
    }

    private MaximumUse cutTo(@Nullable BigDecimal cap, SetBy by) {
        return cap == null || cap.compareTo(concentration) >= 0 ? this : new MaximumUse(cap, by);
    }
}
