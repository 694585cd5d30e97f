package org.hoodkeeper.calculation.air;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import org.hoodkeeper.kernel.Refused;

/**
 * How many hoods a supply feeds at once: Σ hoods × most flow × (1 + leakage) must not exceed what the supply was tested to give at
 * its pressure. Arithmetic; no published source for the leakage, which the site estimates or measures.
 *
 * @param tested flow at the working pressure, L/min, above 0
 * @param perHood the most that one hood takes, L/min, above 0
 * @param leakage of lines and couplings, share of the flow, 0 to 1
 */
public record AirDemand(BigDecimal tested, BigDecimal perHood, BigDecimal leakage) {

    public AirDemand {
        if (tested.signum() <= 0 || perHood.signum() <= 0) {
            throw new Refused("calculation.airDemand.notPositive", tested, perHood);
        }
        if (leakage.signum() < 0 || leakage.compareTo(BigDecimal.ONE) > 0) {
            throw new Refused("calculation.airDemand.leakage", leakage);
        }
    }

    /** L/min that so many hoods take together. */
    public BigDecimal of(int hoods) {
        return perHood.multiply(BigDecimal.valueOf(hoods)).multiply(BigDecimal.ONE.add(leakage));
    }

    /** The most hoods at once. */
    public int most() {
        return tested.divide(of(1), MathContext.DECIMAL128)
                .setScale(0, RoundingMode.FLOOR)
                .intValueExact();
    }

    public boolean feeds(int hoods) {
        return of(hoods).compareTo(tested) <= 0;
    }
}
