package org.hoodkeeper.calculation;

import java.math.BigDecimal;
import java.time.Duration;
import java.util.Collection;
import org.hoodkeeper.kernel.Refused;

/**
 * Exposure averaged over 8 hours: Σ(concentration × time) ÷ 8 h, 29 CFR 1910.1000(d)(1). The divisor stays 8 hours whatever
 * the shift; time that is not listed counts as no exposure, which the person who leaves it out must be able to justify.
 */
public final class TimeWeightedAverage {

    private static final Duration REFERENCE = Duration.ofHours(8);

    private static final Duration DAY = Duration.ofHours(24);

    private TimeWeightedAverage() {}

    /**
     * @param concentration 0 or more, any unit, the same in all parts
     * @param time longer than 0
     */
    public record Part(BigDecimal concentration, Duration time) {

        public Part {
            Figures.requireNotNegative(concentration, "calculation.concentration.negative");
            if (time.isZero() || time.isNegative()) {
                throw new Refused("calculation.time.notPositive", time.toMinutes());
            }
        }
    }

    /**
     * @param parts at least one, together at most 24 hours; refused as {@code calculation.exposures.none} and
     *     {@code calculation.time.overDay}
     * @return in the unit of the parts, 20 digits
     */
    public static BigDecimal over8Hours(Collection<Part> parts) {
        if (parts.isEmpty()) {
            throw new Refused("calculation.exposures.none");
        }
        Duration total = parts.stream().map(Part::time).reduce(Duration.ZERO, Duration::plus);
        if (total.compareTo(DAY) > 0) {
            throw new Refused("calculation.time.overDay", total.toMinutes());
        }
        BigDecimal sum = BigDecimal.ZERO;
        for (Part part : parts) {
            sum = sum.add(part.concentration().multiply(seconds(part.time())));
        }
        return Figures.settle(sum.divide(seconds(REFERENCE), Figures.INSIDE));
    }

    private static BigDecimal seconds(Duration time) {
        return BigDecimal.valueOf(time.getSeconds()).add(BigDecimal.valueOf(time.getNano(), 9));
    }
}
