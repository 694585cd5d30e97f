package org.hoodkeeper.kernel;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;

/** First and last day, both included. */
public record Validity(LocalDate firstDay, LocalDate lastDay) {

    public Validity {
        if (lastDay.isBefore(firstDay)) {
            throw new Refused("validity.order", firstDay, lastDay);
        }
    }

    public boolean contains(LocalDate day) {
        return !day.isBefore(firstDay) && !day.isAfter(lastDay);
    }

    /** The first instant that is no longer covered: the start of the day after the last, in the given zone. */
    public Instant endsAt(ZoneId zone) {
        return Days.endOf(lastDay, zone);
    }
}
