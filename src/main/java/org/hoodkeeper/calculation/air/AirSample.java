package org.hoodkeeper.calculation.air;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What was measured of breathing air; none for what was not.
 *
 * @param oxygen % by volume
 * @param carbonMonoxide ppm
 * @param carbonDioxide ppm
 * @param oil mg/m³
 * @param dewPoint pressure dew point, degrees Celsius
 */
public record AirSample(
        @Nullable BigDecimal oxygen,
        @Nullable BigDecimal carbonMonoxide,
        @Nullable BigDecimal carbonDioxide,
        @Nullable BigDecimal oil,
        @Nullable BigDecimal dewPoint) {

    public enum Component {
        OXYGEN,
        CARBON_MONOXIDE,
        CARBON_DIOXIDE,
        OIL,
        DEW_POINT
    }

    public enum Outcome {
        WITHIN,
        OUTSIDE,
        /** Not measured, or the limit depends on something nobody told. Proves nothing. */
        UNKNOWN
    }

    /**
     * @param least none where only a most is set
     * @param most none where it cannot be told
     */
    public record Line(
            Component component,
            @Nullable BigDecimal measured,
            @Nullable BigDecimal least,
            @Nullable BigDecimal most,
            Outcome outcome) {}

    /**
     * Each component that is limited; what lies on the limit is within it. What is uncertain counts against the air.
     *
     * @param relativeUncertainty of each measured component but the dew point, 0 to below 1; 0 where the laboratory states none
     */
    public List<Line> against(Map<Component, AirLimit> limits, BigDecimal relativeUncertainty) {
        return limits.entrySet().stream()
                .sorted(Map.Entry.comparingByKey())
                .map(limit -> line(limit.getKey(), limit.getValue(), relativeUncertainty))
                .toList();
    }

    private Line line(Component component, AirLimit limit, BigDecimal uncertainty) {
        BigDecimal measured = measured(component);
        if (measured == null) {
            return new Line(component, null, limit.least(), limit.most(), Outcome.UNKNOWN);
        }
        BigDecimal about = component == Component.DEW_POINT
                ? BigDecimal.ZERO
                : measured.abs().multiply(uncertainty);
        return new Line(component, measured, limit.least(), limit.most(), limit.judge(measured, about));
    }

    private @Nullable BigDecimal measured(Component component) {
        return switch (component) {
            case OXYGEN -> oxygen;
            case CARBON_MONOXIDE -> carbonMonoxide;
            case CARBON_DIOXIDE -> carbonDioxide;
            case OIL -> oil;
            case DEW_POINT -> dewPoint;
        };
    }
}
