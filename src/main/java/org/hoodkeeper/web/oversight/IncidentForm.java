package org.hoodkeeper.web.oversight;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.stream.Stream;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.oversight.IncidentFiles;
import org.jspecify.annotations.Nullable;

/**
 * What a file is asked of. The address is the whole question.
 *
 * @param from a day of the site, or an instant with its offset
 * @param until the last day, included, or an instant, excluded
 */
public record IncidentForm(
        @Nullable String about,
        @Nullable String name,
        @Nullable String from,
        @Nullable String until) {

    private enum Edge {
        FIRST,
        LAST
    }

    boolean isEmpty() {
        return blank(about) && blank(name) && blank(from) && blank(until);
    }

    /** @throws Refused {@code incident.about.missing}, {@code incident.name.missing}, {@code incident.from.unreadable} and so on */
    IncidentFiles.Asked asked(ZoneId zone) {
        if (about == null || blank(about)) {
            throw new Refused("incident.about.missing");
        }
        if (name == null || blank(name)) {
            throw new Refused("incident.name.missing");
        }
        IncidentFiles.About of = Stream.of(IncidentFiles.About.values())
                .filter(one -> one.name().equalsIgnoreCase(about))
                .findFirst()
                .orElseThrow(() -> new Refused("incident.about.unknown", about));
        Instant begin = instant(from, zone, "incident.from.unreadable", Edge.FIRST);
        Instant end = instant(until, zone, "incident.until.unreadable", Edge.LAST);
        return new IncidentFiles.Asked(of, name.strip(), begin, end);
    }

    private static Instant instant(@Nullable String text, ZoneId zone, String code, Edge edge) {
        if (text == null || blank(text)) {
            throw new Refused(code, "");
        }
        try {
            if (text.strip().length() == 10) {
                LocalDate day = LocalDate.parse(text.strip());
                requireFourDigits(day.getYear(), code, text);
                return edge == Edge.LAST ? Days.endOf(day, zone) : Days.startOf(day, zone);
            }
            OffsetDateTime at = OffsetDateTime.parse(text.strip().replace(' ', '+'));
            requireFourDigits(at.getYear(), code, text);
            return at.toInstant();
        } catch (DateTimeException unreadable) {
            throw new Refused(code, text);
        }
    }

    /** No record can be of another year, and no database holds every one that can be written. */
    private static void requireFourDigits(int year, String code, String text) {
        if (year < 1 || year > 9_998) {
            throw new Refused(code, text);
        }
    }

    private static boolean blank(@Nullable String text) {
        return text == null || text.isBlank();
    }
}
