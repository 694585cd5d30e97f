package org.hoodkeeper.rules;

import java.time.LocalDate;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/**
 * The days on which a rule or figure is in force, both included.
 *
 * @param lastDay none while no end is known
 */
public record InForceDays(LocalDate firstDay, @Nullable LocalDate lastDay) {

    public InForceDays {
        if (lastDay != null && lastDay.isBefore(firstDay)) {
            throw new Refused("validity.order", firstDay, lastDay);
        }
    }

    public boolean on(LocalDate day) {
        return !day.isBefore(firstDay) && (lastDay == null || !day.isAfter(lastDay));
    }

    public boolean overlaps(InForceDays other) {
        return (lastDay == null || !other.firstDay.isAfter(lastDay))
                && (other.lastDay == null || !firstDay.isAfter(other.lastDay));
    }
}
