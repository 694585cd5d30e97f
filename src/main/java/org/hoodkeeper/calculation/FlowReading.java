package org.hoodkeeper.calculation;

import java.math.BigDecimal;

/**
 * What an indicator showed, and the air in which it showed it.
 *
 * <p>Corrected flow = reading × √(ρcal ÷ ρ) ÷ what the indicator shows for a true 1, and, where the minimum is meant at a
 * reference condition, × ρ ÷ ρref. Rounding is always against the set: a corrected flow goes down to 0.1 L/min, a reading that
 * is asked for goes up to 0.1.
 *
 * @param shown the reading, L/min, 0 (no flow at all) to 1,000
 * @param air the air at the indicator
 */
public record FlowReading(BigDecimal shown, AirCondition air) {

    public FlowReading {
        Figures.requireWithin(shown, "0", "1000", "calculation.flowReading.range");
    }

    /**
     * @param corrected true flow on the footing of the minimum, L/min, rounded down to 0.1
     * @param atLeast the corrected flow less the uncertainty, L/min: what is certain
     * @param passed whether that reaches the minimum; the minimum itself passes
     */
    public record Judgement(BigDecimal corrected, BigDecimal atLeast, boolean passed) {}

    /** True volume flow in the air as it is, L/min, rounded down to 0.1. */
    public BigDecimal corrected(FlowIndicator indicator) {
        return Figures.tenthsDown(shown.multiply(indicator.trueForOne(air), Figures.INSIDE));
    }

    /** Judges with the guard band: what is uncertain counts against the set. */
    public Judgement judge(FlowIndicator indicator, MinimumFlow minimum) {
        BigDecimal corrected = Figures.tenthsDown(
                shown.doubleValue() * nearScale(indicator, minimum, air),
                () -> shown.multiply(scale(indicator, minimum, air), Figures.INSIDE));
        BigDecimal atLeast = corrected.subtract(indicator.uncertainty());
        return new Judgement(corrected, atLeast, atLeast.compareTo(minimum.litresPerMinute()) >= 0);
    }

    /**
     * The number a wearer must see: the lowest reading on a scale of 0.1 L/min that {@link #judge} passes in that air with that
     * indicator.
     */
    public static BigDecimal required(FlowIndicator indicator, MinimumFlow minimum, AirCondition air) {
        BigDecimal target = Figures.tenthsUp(minimum.litresPerMinute().add(indicator.uncertainty()));
        return Figures.tenthsUp(target.divide(scale(indicator, minimum, air), Figures.INSIDE));
    }

    private static double nearScale(FlowIndicator indicator, MinimumFlow minimum, AirCondition air) {
        return indicator.nearTrueForOne(air) * minimum.nearFromLocal(air);
    }

    private static BigDecimal scale(FlowIndicator indicator, MinimumFlow minimum, AirCondition air) {
        return indicator.trueForOne(air).multiply(minimum.fromLocal(air), Figures.INSIDE);
    }
}
