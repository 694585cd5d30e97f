package org.hoodkeeper.demo;

import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;

/**
 * The days of the demo's files are relative to the day of loading: {@code D-30} is a day thirty days before, {@code D-1 06:05}
 * a local time of the day before. Both become what a file of a real site holds.
 *
 * @param today the day of loading on the site
 * @param zone the site's zone
 */
record DemoDays(LocalDate today, ZoneId zone) {

    private static final Pattern RELATIVE =
            Pattern.compile("(?<=^|,)D([+-]\\d+)(?: (\\d\\d:\\d\\d))?(?=,|$)", Pattern.MULTILINE);

    /** @param file a whole file of {@code demo-data/} */
    String dated(String file) {
        return RELATIVE.matcher(file).replaceAll(found -> dated(found));
    }

    private String dated(MatchResult found) {
        LocalDate day = today.plusDays(Long.parseLong(found.group(1)));
        if (found.group(2) == null) {
            return day.toString();
        }
        ZonedDateTime local = day.atTime(LocalTime.parse(found.group(2))).atZone(zone);
        return DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(local);
    }
}
