package org.hoodkeeper.exchange;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.util.Locale;
import java.util.function.Function;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.LocalTimes;
import org.hoodkeeper.kernel.Refused;

/**
 * What the times in a file mean on a site. An instant names its offset: a wall clock alone is ambiguous one night a year. A day
 * alone means an instant that is safe: evidence counts from the start of the next day unless the site decided otherwise, what
 * takes a clearance away counts from the start of its own day.
 */
final class Moments {

    /** What a day alone stands for. */
    enum Meaning {
        /** Evidence that clears: it counts when the day is over, unless the site decided otherwise. */
        CLEARS,
        /** It takes something away, or begins with a first day: it counts from the start of the day. */
        FROM_ITS_START,
        /** A last day, which is still part of it. */
        UNTIL_ITS_END
    }

    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm", Locale.ROOT);

    private final ZoneId zone;
    private final Function<LocalDate, Boolean> sameDay;

    /** @param sameDay whether the site lets evidence of that day count on the day itself */
    Moments(ZoneId zone, Function<LocalDate, Boolean> sameDay) {
        this.zone = zone;
        this.sameDay = sameDay;
    }

    ZoneId zone() {
        return zone;
    }

    /** @throws Refused {@code exchange.offset} without an offset, {@code exchange.moment} when it is no time at all */
    Instant read(String text, Meaning meaning) {
        if (text.length() == 10) {
            LocalDate day = Form.day(text);
            boolean afterwards = meaning == Meaning.UNTIL_ITS_END || meaning == Meaning.CLEARS && !sameDay.apply(day);
            return afterwards ? Days.endOf(day, zone) : Days.startOf(day, zone);
        }
        return instant(text);
    }

    /** @throws Refused as {@link #read}, and {@code exchange.timeMissing} for a day alone */
    Instant instant(String text) {
        if (text.length() == 10 && text.matches("[0-9-]*")) {
            throw new Refused("exchange.timeMissing", text);
        }
        try {
            OffsetDateTime time = OffsetDateTime.parse(text.replace(' ', 'T'));
            if (time.getYear() < 1900 || time.getYear() > 2999) {
                throw new Refused("exchange.year", text);
            }
            if (time.getNano() % 1000 != 0) {
                throw new Refused("exchange.micros", text);
            }
            return time.toInstant();
        } catch (DateTimeParseException wrong) {
            throw new Refused(
                    text.matches(".*[0-9]{2}:[0-9]{2}(:[0-9]{2}([.][0-9]+)?)?") ? "exchange.offset" : "exchange.moment",
                    text);
        }
    }

    /** With the site's offset at that instant, so that a person reads the site's wall clock. */
    String write(Instant instant) {
        return DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(
                instant.atZone(zone).toOffsetDateTime());
    }

    /** As a person types it on the site's clock, to the minute: 2026-11-25 09:30, with its offset where that time occurs twice. */
    String onClock(Instant instant) {
        OffsetDateTime local = instant.atZone(zone).toOffsetDateTime();
        String text = CLOCK.format(local);
        return LocalTimes.meaningOf(LocalDateTime.parse(text, CLOCK), zone).isAmbiguous()
                ? text + local.getOffset()
                : text;
    }

    /**
     * A time typed on the site's clock as a file has it. What names its offset, or is no time of a clock, stays as it is.
     *
     * @throws Refused {@code time.notOccurring}; {@code exchange.clockTwice} (typed time, earlier offset, later offset)
     */
    String ofClock(String text) {
        LocalDateTime typed;
        try {
            typed = LocalDateTime.parse(text.replace('T', ' '), CLOCK);
        } catch (DateTimeParseException otherwise) {
            return text;
        }
        LocalTimes.Meaning meaning = LocalTimes.meaningOf(typed, zone);
        LocalTimes.ZonedReading later = meaning.later();
        if (later != null) {
            throw new Refused("exchange.clockTwice", text, meaning.earlier().offset(), later.offset());
        }
        return write(meaning.earlier().instant());
    }
}
