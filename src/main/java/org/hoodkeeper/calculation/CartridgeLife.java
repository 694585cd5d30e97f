package org.hoodkeeper.calculation;

import java.math.BigDecimal;
import java.math.RoundingMode;
import org.hoodkeeper.kernel.Refused;

/**
 * How long a gas cartridge may be used: the regulator's rule of thumb for organic vapours. It is only used beside another method,
 * and never for a substance with a rule of its own.
 */
public final class CartridgeLife {

    private static final BigDecimal LEAST_BOILING_POINT = new BigDecimal("70");
    private static final BigDecimal HIGHEST = new BigDecimal("200");
    private static final double EIGHT_HOURS = 8;

    private CartridgeLife() {}

    /**
     * OSHA's rule of thumb: an organic vapour that boils <em>above</em> 70 °C, below 200 ppm, lasts 8 h at a normal work rate; a
     * tenth of the concentration makes it last five times as long, a harder work rate shortens it in proportion, more than 85 %
     * humidity halves it (verified: archived page of the regulator, which has the sign that some courses turn round). Between the
     * decades: 8 × (200 ÷ ppm)^log10 5, our interpolation. The cap of one shift is added here, common practice.
     *
     * @param ppm above 0 and at most 200; refused as {@code calculation.cartridge.ppm}
     * @param boilingPoint °C, above 70; refused as {@code calculation.cartridge.boils}
     * @param workRate times the normal rate, 0.5 to 4
     * @param humidity relative, 0 to 100 %
     */
    public static Life ruleOfThumb(BigDecimal ppm, BigDecimal boilingPoint, BigDecimal workRate, BigDecimal humidity) {
        if (ppm.signum() <= 0 || ppm.compareTo(HIGHEST) > 0) {
            throw new Refused("calculation.cartridge.ppm", ppm, HIGHEST);
        }
        if (boilingPoint.compareTo(LEAST_BOILING_POINT) <= 0) {
            throw new Refused("calculation.cartridge.boils", boilingPoint, LEAST_BOILING_POINT);
        }
        Figures.requireWithin(workRate, "0.5", "4", "calculation.cartridge.workRate");
        Figures.requireWithin(humidity, "0", "100", "calculation.cartridge.humidity");
        double hours = EIGHT_HOURS * Math.pow(200 / ppm.doubleValue(), Math.log10(5)) / workRate.doubleValue();
        if (humidity.compareTo(new BigDecimal("85")) > 0) {
            hours /= 2;
        }
        BigDecimal estimate = BigDecimal.valueOf(hours).setScale(2, RoundingMode.FLOOR);
        return new Life(estimate, estimate.min(new BigDecimal("8.00")));
    }

    /**
     * @param estimate hours, two decimals, rounded down
     * @param use hours for which it may be used: never longer than one shift of 8 h
     */
    public record Life(BigDecimal estimate, BigDecimal use) {}
}
