package org.hoodkeeper.calculation;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * One substance in the air outside the device, with what it is measured against. All figures in the same unit (mg/m³, ppm,
 * fibres/ml): the caller converts. Long-term, short-term and ceiling values are judged apart, each against its own limit.
 *
 * @param substance its name on the site
 * @param concentration above 0; for a result below detection put the detection limit, never 0. Refused as
 *     {@code calculation.concentration.notPositive}
 * @param limit exposure limit, above 0. Refused as {@code calculation.limit.notPositive}
 * @param idlh concentration immediately dangerous to life or health; none where none is published
 * @param filterLimit the highest concentration for which the cartridge or filter may be used; none where the maker states
 *     none or nothing is filtered
 */
public record Exposure(
        String substance,
        BigDecimal concentration,
        BigDecimal limit,
        @Nullable BigDecimal idlh,
        @Nullable BigDecimal filterLimit) {

    public Exposure {
        Figures.requirePositive(concentration, "calculation.concentration.notPositive");
        Figures.requirePositive(limit, "calculation.limit.notPositive");
        if (idlh != null) {
            Figures.requirePositive(idlh, "calculation.idlh.notPositive");
        }
        if (filterLimit != null) {
            Figures.requirePositive(filterLimit, "calculation.filterLimit.notPositive");
        }
    }

    public static Exposure of(String substance, BigDecimal concentration, BigDecimal limit) {
        return new Exposure(substance, concentration, limit, null, null);
    }

    /** An air that has reached the dangerous concentration is dangerous: the figure itself counts. */
    boolean isImmediatelyDangerous() {
        return idlh != null && concentration.compareTo(idlh) >= 0;
    }

    boolean isBeyondFilter() {
        return filterLimit != null && concentration.compareTo(filterLimit) > 0;
    }

    BigDecimal share() {
        return concentration.divide(limit, Figures.INSIDE);
    }
}
