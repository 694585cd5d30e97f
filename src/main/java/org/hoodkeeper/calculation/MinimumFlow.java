package org.hoodkeeper.calculation;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * The maker's minimum flow of a model. Makers mean it either in the air as it is, or as a volume at a reference condition; the
 * model says which, nothing here assumes it.
 *
 * @param litresPerMinute above 0, at most 1,000
 * @param reference the condition at which the minimum is meant; none for the air as it is
 */
public record MinimumFlow(
        BigDecimal litresPerMinute, @Nullable AirCondition reference) {

    public MinimumFlow {
        Figures.requirePositive(litresPerMinute, "calculation.minimumFlow.notPositive");
        Figures.requireWithin(litresPerMinute, "0", "1000", "calculation.minimumFlow.range");
    }

    public static MinimumFlow inLocalAir(BigDecimal litresPerMinute) {
        return new MinimumFlow(litresPerMinute, null);
    }

    public static MinimumFlow at(AirCondition reference, BigDecimal litresPerMinute) {
        return new MinimumFlow(litresPerMinute, reference);
    }

    /** What a local volume is multiplied with to stand beside the minimum: the same air takes more room where it is thin. */
    BigDecimal fromLocal(AirCondition air) {
        return reference == null ? BigDecimal.ONE : AirDensity.ratio(air, reference);
    }

    /** The same to fifteen digits. */
    double nearFromLocal(AirCondition air) {
        return reference == null ? 1 : AirDensity.nearRatio(air, reference);
    }
}
