package org.hoodkeeper.web;

import java.time.DateTimeException;
import java.time.LocalDate;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/** A day typed into the fields above a list. */
public final class DayText {

    private DayText() {}

    /**
     * @return none where nothing was typed
     * @throws Refused {@code findings.day} when it is no day, or has a year beyond four digits
     */
    public static @Nullable LocalDate read(@Nullable String text) {
        if (text == null || text.isBlank()) {
            return null;
        }
        try {
            LocalDate day = LocalDate.parse(text.strip());
            if (day.getYear() >= 1 && day.getYear() <= 9_999) {
                return day;
            }
        } catch (DateTimeException unreadable) {
            throw new Refused("findings.day", text);
        }
        throw new Refused("findings.day", text);
    }
}
