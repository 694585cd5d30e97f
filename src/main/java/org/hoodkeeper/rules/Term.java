package org.hoodkeeper.rules;

import java.time.LocalDate;
import java.time.Period;
import java.time.format.DateTimeParseException;
import org.hoodkeeper.kernel.Refused;

/**
 * How long evidence is good: years (read as the site reads a year), calendar months, or days.
 *
 * <p>Dueness is decided by adding to the original anchor, never by counting between two dates and never by adding to a date
 * that was cut at a month's end: 31 January, 28 February, 28 March is drift.
 */
public record Term(int amount, Unit unit) {

    public enum Unit {
        YEARS,
        MONTHS,
        DAYS
    }

    public Term {
        if (amount <= 0) {
            throw new Refused("rules.term", amount);
        }
    }

    /** @param text an ISO 8601 period of one unit: {@code P1Y}, {@code P24M}, {@code P7D}; {@code P1W} is seven days */
    public static Term of(String text) {
        Period period;
        try {
            period = Period.parse(text);
        } catch (DateTimeParseException unreadable) {
            throw new Refused("rules.term", text);
        }
        int units =
                (period.getYears() != 0 ? 1 : 0) + (period.getMonths() != 0 ? 1 : 0) + (period.getDays() != 0 ? 1 : 0);
        if (units != 1) {
            throw new Refused("rules.term", text);
        }
        if (period.getYears() != 0) {
            return new Term(period.getYears(), Unit.YEARS);
        }
        return period.getMonths() != 0
                ? new Term(period.getMonths(), Unit.MONTHS)
                : new Term(period.getDays(), Unit.DAYS);
    }

    /** The last day on which something of that day is good, that day included. */
    public LocalDate lastDay(LocalDate anchor, YearReading reading) {
        return lastDay(anchor, 1, reading);
    }

    /**
     * The last day of the n-th term counted from the first anchor, for rules with a fixed rhythm.
     *
     * @param n 1 for the first term
     */
    public LocalDate lastDay(LocalDate anchor, int n, YearReading reading) {
        return switch (unit) {
            case DAYS -> anchor.plusDays((long) n * amount);
            case MONTHS -> anchor.plusMonths((long) n * amount);
            case YEARS ->
                switch (reading) {
                    case AT_MOST_365_DAYS -> anchor.plusDays(365L * n * amount);
                    case ANNIVERSARY -> anchor.plusYears((long) n * amount);
                    case CALENDAR_MONTHS -> anchor.plusMonths(12L * n * amount);
                };
        };
    }

    /** How many days it is at least about: a month counts 30, a year 365. For notice, never for dueness. */
    public long roughDays() {
        return switch (unit) {
            case DAYS -> amount;
            case MONTHS -> amount * 30L;
            case YEARS -> amount * 365L;
        };
    }

    @Override
    public String toString() {
        return "P" + amount + unit.name().charAt(0);
    }
}
