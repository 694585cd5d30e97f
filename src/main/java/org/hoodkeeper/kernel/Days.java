package org.hoodkeeper.kernel;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;

/** Civil days and the instants at which they begin and end. */
public final class Days {

    private Days() {}

    /** The day on which an instant lies. */
    public static LocalDate of(Instant instant, ZoneId zone) {
        return DayStarts.in(zone).dayOf(instant);
    }

    /** The first instant of a day; later than midnight where the clock jumps over midnight. */
    public static Instant startOf(LocalDate day, ZoneId zone) {
        return DayStarts.in(zone).of(day);
    }

    /** The first instant after a day, which is the first instant of the next one. */
    public static Instant endOf(LocalDate day, ZoneId zone) {
        return startOf(day.plusDays(1), zone);
    }
}
