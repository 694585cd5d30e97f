package org.hoodkeeper.web;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import org.hoodkeeper.kernel.LocalTimes;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.reporting.Moment;
import org.jspecify.annotations.Nullable;

/**
 * The moment in a page's address: local to the site, or with an offset where a local time happens twice.
 *
 * @param at for instance {@code 2026-03-14T06:00} or {@code 2026-10-25T01:30+01:00}; nothing means now
 * @param known {@code then} or {@code now}
 */
public record MomentForm(@Nullable String at, @Nullable String known) {

    /** @throws Refused when the moment cannot be read, occurs twice, or lies too far ahead */
    public Moment moment(ZoneId zone, Instant now) {
        boolean then = "then".equals(known);
        return Moment.of(at == null || at.isBlank() ? null : instant(at.strip(), zone), then, now);
    }

    private static Instant instant(String text, ZoneId zone) {
        try {
            OffsetDateTime at = OffsetDateTime.parse(text.replace(' ', '+'));
            requireFourDigits(at.getYear(), text);
            return at.toInstant();
        } catch (DateTimeException local) {
            return local(text, zone);
        }
    }

    private static Instant local(String text, ZoneId zone) {
        LocalDateTime typed;
        try {
            typed = LocalDateTime.parse(text);
        } catch (DateTimeException unreadable) {
            throw new Refused("moment.at.unreadable", text);
        }
        requireFourDigits(typed.getYear(), text);
        LocalTimes.Meaning meaning = LocalTimes.meaningOf(typed, zone);
        if (meaning.isAmbiguous()) {
            throw new Refused(
                    "moment.at.twice",
                    text,
                    meaning.readings().get(0).offset().getId(),
                    meaning.readings().get(1).offset().getId());
        }
        return meaning.earlier().instant();
    }

    /** No record can be of another year, and no database holds every one that can be written. */
    private static void requireFourDigits(int year, String text) {
        if (year < 1 || year > 9_999) {
            throw new Refused("moment.at.unreadable", text);
        }
    }
}
