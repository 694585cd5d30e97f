package org.hoodkeeper.calculation;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Whether a factor is enough for an air, with every reason why not.
 *
 * @param ratio the hazard ratio
 * @param factor the factor that rule set, class and day give; never a person's fit factor
 * @param margin factor ÷ ratio, rounded down to two decimals
 * @param shortfalls all that stands against it; empty when it is adequate
 */
public record Adequacy(HazardRatio ratio, BigDecimal factor, BigDecimal margin, List<Shortfall> shortfalls) {

    /** @param substance which one; none where it is the mixture as a whole */
    public record Shortfall(Reason reason, @Nullable String substance) {}

    /** Why a factor is not enough. */
    public enum Reason {
        /** The ratio is above the factor: 29 CFR 1910.134(d)(3)(i)(A); HSG53, "adequate". */
        FACTOR_BELOW_RATIO,
        /** At or above the immediately dangerous concentration no factor counts: 29 CFR 1910.134(d)(3)(i)(B)(2). */
        IMMEDIATELY_DANGEROUS,
        /** Above what the cartridge or filter may meet: 29 CFR 1910.134(d)(3)(i)(B)(3). */
        BEYOND_FILTER
    }

    public Adequacy {
        shortfalls = List.copyOf(shortfalls);
    }

    public static Adequacy of(Collection<Exposure> exposures, MixtureEffect effect, BigDecimal factor) {
        HazardRatio ratio = HazardRatio.of(exposures, effect);
        List<Shortfall> shortfalls = new ArrayList<>();
        if (!ratio.isCoveredBy(factor)) {
            shortfalls.add(new Shortfall(Reason.FACTOR_BELOW_RATIO, null));
        }
        for (Exposure exposure : exposures) {
            if (exposure.isImmediatelyDangerous()) {
                shortfalls.add(new Shortfall(Reason.IMMEDIATELY_DANGEROUS, exposure.substance()));
            }
            if (exposure.isBeyondFilter()) {
                shortfalls.add(new Shortfall(Reason.BEYOND_FILTER, exposure.substance()));
            }
        }
        return new Adequacy(ratio, factor, ratio.marginOf(factor), shortfalls);
    }

    public boolean isAdequate() {
        return shortfalls.isEmpty();
    }
}
