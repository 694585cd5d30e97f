package org.hoodkeeper.calculation.air;

import java.math.BigDecimal;
import java.util.List;
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
     * Each component against the edition's limit; what lies on the limit is within it. What is uncertain counts against the air.
     *
     * @param lowest lowest temperature of the line, degrees Celsius; none where nobody knows
     * @param relativeUncertainty of each measured component but the dew point, 0 to below 1; 0 where the laboratory states none
     */
    public List<Line> against(AirEdition edition, @Nullable BigDecimal lowest, BigDecimal relativeUncertainty) {
        return List.of(
                line(Component.OXYGEN, oxygen, edition.oxygenFrom(), edition.oxygenTo(), relativeUncertainty),
                line(Component.CARBON_MONOXIDE, carbonMonoxide, null, edition.carbonMonoxide(), relativeUncertainty),
                line(Component.CARBON_DIOXIDE, carbonDioxide, null, edition.carbonDioxide(), relativeUncertainty),
                line(Component.OIL, oil, null, edition.oil(), relativeUncertainty),
                line(Component.DEW_POINT, dewPoint, null, edition.dewPoint(lowest), BigDecimal.ZERO));
    }

    private static Line line(
            Component component,
            @Nullable BigDecimal measured,
            @Nullable BigDecimal least,
            @Nullable BigDecimal most,
            BigDecimal uncertainty) {
        if (measured == null || most == null) {
            return new Line(component, measured, least, most, Outcome.UNKNOWN);
        }
        BigDecimal about = measured.abs().multiply(uncertainty);
        boolean within = measured.add(about).compareTo(most) <= 0
                && (least == null || measured.subtract(about).compareTo(least) >= 0);
        return new Line(component, measured, least, most, within ? Outcome.WITHIN : Outcome.OUTSIDE);
    }
}
