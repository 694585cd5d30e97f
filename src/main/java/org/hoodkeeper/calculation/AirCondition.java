package org.hoodkeeper.calculation;

import java.math.BigDecimal;

/**
 * The air at a place: temperature and absolute pressure there, not reduced to sea level.
 *
 * @param celsius degrees Celsius, −40 to 60
 * @param hectopascals absolute pressure, 500 to 1,100 hPa; a pressure typed in kPa or mmHg falls outside on most days
 */
public record AirCondition(BigDecimal celsius, BigDecimal hectopascals) {

    private static final BigDecimal ZERO_CELSIUS = new BigDecimal("273.15");

    public AirCondition {
        Figures.requireWithin(celsius, "-40", "60", "calculation.temperature.range");
        Figures.requireWithin(hectopascals, "500", "1100", "calculation.pressure.range");
    }

    BigDecimal kelvin() {
        return celsius.add(ZERO_CELSIUS);
    }
}
