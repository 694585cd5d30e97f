package org.hoodkeeper.calculation;

import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * The pressure that goes with an altitude where nobody measured it: ICAO Doc 7488 and US Standard Atmosphere 1976, below 11 km.
 * The weather moves the real pressure by up to some 3 % about it, and a corrected flow by half of that; a site to which that
 * matters measures the pressure.
 */
public final class StandardAtmosphere {

    private static final double SEA_LEVEL_HECTOPASCALS = 1013.25;

    /** 6.5 K/km over 288.15 K. */
    private static final double LAPSE = 0.0065 / 288.15;

    /** g₀ · M₀ ÷ (R* · L) = 9.80665 · 0.0289644 ÷ (8.31432 · 0.0065). */
    private static final double EXPONENT = 5.255880;

    private StandardAtmosphere() {}

    /**
     * Absolute pressure, hPa, to 0.01.
     *
     * @param metres above sea level, −400 to 5,000
     * @throws org.hoodkeeper.kernel.Refused {@code calculation.metres.range}
     */
    public static BigDecimal hectopascals(BigDecimal metres) {
        Figures.requireWithin(metres, "-400", "5000", "calculation.metres.range");
        double share = Math.pow(1 - LAPSE * metres.doubleValue(), EXPONENT);
        return BigDecimal.valueOf(SEA_LEVEL_HECTOPASCALS * share).setScale(2, RoundingMode.HALF_EVEN);
    }
}
