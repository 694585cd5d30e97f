package org.hoodkeeper.calculation;

import java.math.BigDecimal;

/**
 * Density of air from temperature and pressure, and what it does to a float in a tube.
 *
 * <p>The correction of a flow uses the ratio of dry densities, since a store has no hygrometer. Moist air is lighter, so at the
 * place this errs on the safe side: the true flow is higher than computed by 0.4 % at 20 °C and saturation, by 0.9 % at 35 °C
 * and 80 %. An indicator calibrated in moist air and used in dry air errs the other way, by 0.2 % for 20 °C and 50 %; a site to
 * which that matters puts it into the uncertainty.
 */
public final class AirDensity {

    /** Specific gas constant of dry air, J/(kg·K): 8.314462618 ÷ 0.0289647; from memory, agrees with the 1976 atmosphere to 1e-5. */
    private static final BigDecimal GAS_CONSTANT = new BigDecimal("287.055");

    private AirDensity() {}

    /** Dry air, kg/m³, as an ideal gas; within 5e-4 of the full equation of state between −10 and 40 °C. */
    public static BigDecimal dry(AirCondition air) {
        return Figures.settle(
                air.hectopascals().movePointRight(2).divide(GAS_CONSTANT.multiply(air.kelvin()), Figures.INSIDE));
    }

    /**
     * Moist air, kg/m³: OIML R 111-1, formula (E.3-1), from memory; stated to 2e-4 for 900 to 1,100 hPa, 10 to 30 °C and less
     * than 80 % relative humidity. Outside of that it still answers, with up to 5e-4 at 35 °C and 80 %.
     *
     * @param relativeHumidity 0 to 100 %
     */
    public static BigDecimal moist(AirCondition air, BigDecimal relativeHumidity) {
        Figures.requireWithin(relativeHumidity, "0", "100", "calculation.humidity.range");
        double celsius = air.celsius().doubleValue();
        double hectopascals = air.hectopascals().doubleValue();
        double humid = 0.009 * relativeHumidity.doubleValue() * Math.exp(0.061 * celsius);
        return BigDecimal.valueOf((0.34848 * hectopascals - humid) / (273.15 + celsius));
    }

    /** Density in one air ÷ density in the other, dry: (p/T) ÷ (p′/T′), absolute. Exactly 1 in the same air. */
    static BigDecimal ratio(AirCondition air, AirCondition to) {
        return air.hectopascals()
                .multiply(to.kelvin())
                .divide(to.hectopascals().multiply(air.kelvin()), Figures.INSIDE);
    }

    /** The same to fifteen digits. */
    static double nearRatio(AirCondition air, AirCondition to) {
        return air.hectopascals().doubleValue()
                * to.kelvin().doubleValue()
                / (to.hectopascals().doubleValue() * air.kelvin().doubleValue());
    }

    /**
     * What the reading of a variable-area indicator is multiplied with to give the true volume flow: √(ρcal ÷ ρ). VDI/VDE
     * 3513-1, ISO 11605, from memory. Above 1 in thin air.
     *
     * @param calibrationDensity density for which the scale is right, above 0
     * @param density density at the reading, above 0, same unit
     */
    public static BigDecimal volumeFactor(BigDecimal calibrationDensity, BigDecimal density) {
        Figures.requirePositive(calibrationDensity, "calculation.density.notPositive");
        Figures.requirePositive(density, "calculation.density.notPositive");
        return calibrationDensity.divide(density, Figures.INSIDE).sqrt(Figures.INSIDE);
    }
}
