package org.hoodkeeper.calculation;

import java.math.BigDecimal;

/**
 * One measured concentration of a group that is exposed alike. All samples of one calculation are in one unit, the limit's.
 *
 * @param value above 0; for a result below detection the detection limit. Refused as
 *     {@code calculation.concentration.notPositive}
 * @param detection whether the value was measured, or is the limit below which nothing was seen
 */
public record Sample(BigDecimal value, Detection detection) {

    /** Whether a laboratory saw the substance. */
    public enum Detection {
        DETECTED,
        /** Less than the value. */
        BELOW
    }

    public Sample {
        Figures.requirePositive(value, "calculation.concentration.notPositive");
    }

    public static Sample of(String value) {
        return new Sample(new BigDecimal(value), Detection.DETECTED);
    }

    public static Sample below(String limitOfDetection) {
        return new Sample(new BigDecimal(limitOfDetection), Detection.BELOW);
    }

    boolean isDetected() {
        return detection == Detection.DETECTED;
    }

    double ln() {
        return Math.log(value.doubleValue());
    }
}
