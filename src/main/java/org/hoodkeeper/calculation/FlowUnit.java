package org.hoodkeeper.calculation;

import java.math.BigDecimal;

/** Units in which a flow is stated. Everything is kept in litres per minute. */
public enum FlowUnit {
    LITRES_PER_MINUTE("1"),
    /** 1 foot = 0.3048 m exactly, so 1 ft³ = 28.316846592 L. */
    CUBIC_FEET_PER_MINUTE("28.316846592");

    private final BigDecimal litres;

    FlowUnit(String litres) {
        this.litres = new BigDecimal(litres);
    }

    /** Without rounding: 4 cfm are 113.267386368 L/min. */
    public BigDecimal toLitresPerMinute(BigDecimal value) {
        return value.multiply(litres);
    }
}
