package org.hoodkeeper.calculation;

import java.math.BigDecimal;

/**
 * A flow indicator as its certificate describes it. The calibration condition belongs to the instrument.
 *
 * @param calibratedAt the air for which its scale is right, for instance 20 °C and 1,013.25 hPa
 * @param shownForOne what it shows for a true 1: 1.06 reads 6 % high. 0.5 to 2
 * @param uncertainty expanded uncertainty of a reading, L/min, 0 or more; where the certificate states none the site decides what
 *     to put here
 */
public record FlowIndicator(AirCondition calibratedAt, BigDecimal shownForOne, BigDecimal uncertainty) {

    public FlowIndicator {
        Figures.requireWithin(shownForOne, "0.5", "2", "calculation.calibrationFactor.range");
        Figures.requireNotNegative(uncertainty, "calculation.uncertainty.negative");
    }

    /** True local volume flow for a reading of 1 in that air. */
    BigDecimal trueForOne(AirCondition air) {
        BigDecimal byDensity = AirDensity.ratio(calibratedAt, air).sqrt(Figures.INSIDE);
        return byDensity.divide(shownForOne, Figures.INSIDE);
    }

    /** The same to fifteen digits. */
    double nearTrueForOne(AirCondition air) {
        return Math.sqrt(AirDensity.nearRatio(calibratedAt, air)) / shownForOne.doubleValue();
    }
}
