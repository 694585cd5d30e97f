package org.hoodkeeper.facts;

import java.math.BigDecimal;

/** A condition measured at a task on the day, for instance heat. */
public record MeasuredCondition(Quantity quantity, BigDecimal value) implements Fact {

    public enum Quantity {
        /** Wet-bulb globe temperature, degrees Celsius. */
        WBGT
    }
}
