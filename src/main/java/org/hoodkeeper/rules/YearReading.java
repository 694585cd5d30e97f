package org.hoodkeeper.rules;

import org.hoodkeeper.kernel.Refused;

/**
 * What "annual" means. The US authority has published two readings of its own word: on or before the anniversary (letter of
 * 23 December 1998) and at most 365 days (letter of 24 January 2007). Where neither applies, calendar months do.
 */
public enum YearReading {
    /** The corresponding date, else the last day of the month. */
    CALENDAR_MONTHS("calendar-months"),
    /** Counts days: a leap year ends a day early. */
    AT_MOST_365_DAYS("at-most-365-days"),
    /** The same day of the next year; 29 February becomes 28 February. */
    ANNIVERSARY("anniversary");

    private final String code;

    YearReading(String code) {
        this.code = code;
    }

    public String code() {
        return code;
    }

    public static YearReading of(String code) {
        for (YearReading reading : values()) {
            if (reading.code.equals(code)) {
                return reading;
            }
        }
        throw new Refused("rules.yearReading", code);
    }
}
