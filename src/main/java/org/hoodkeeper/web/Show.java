package org.hoodkeeper.web;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.hoodkeeper.facts.AirUnit;
import org.springframework.context.MessageSource;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/**
 * Dates, times, spans and figures in the reader's language, for templates ({@code ${@show.day(d)}}) and messages.
 * Month names come from the bundles, not from the Java runtime, whose names change between its versions.
 */
@Component("show")
public class Show {

    private static final String THIN = "\u202f";
    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

    private final MessageSource messages;
    private final Here here;

    Show(MessageSource messages, Here here) {
        this.messages = messages;
        this.here = here;
    }

    /** 30 Nov 2026. */
    public String day(LocalDate day) {
        String month = say("show.month." + day.getMonthValue());
        return say("show.day", String.valueOf(day.getDayOfMonth()), month, String.valueOf(day.getYear()));
    }

    /** 06:00, on the 24 hour clock; seconds are cut. */
    public String time(LocalTime time) {
        return CLOCK.format(time);
    }

    /** 30 Nov 2026, 06:00. */
    public String dayTime(LocalDateTime at) {
        return say("show.dayTime", day(at.toLocalDate()), time(at.toLocalTime()));
    }

    /**
     * An instant on the site's clock: 30 Nov 2026, 06:00. A time that occurs twice on that day carries its offset,
     * as in 25 Oct 2026, 01:30 (UTC+01:00).
     */
    public String instant(Instant at, ZoneId zone) {
        ZonedDateTime local = at.atZone(zone);
        String shown = dayTime(local.toLocalDateTime());
        boolean twice = zone.getRules().getValidOffsets(local.toLocalDateTime()).size() > 1;
        return twice ? say("show.withOffset", shown, offset(local.getOffset())) : shown;
    }

    /** An instant on the clock of the site the page is about. */
    public String instant(Instant at) {
        return instant(at, here.zone());
    }

    /** UTC+01:00, UTC-07:00, UTC. */
    public String offset(ZoneOffset offset) {
        return offset.equals(ZoneOffset.UTC) ? "UTC" : "UTC" + offset.getId().replace('-', '\u2212');
    }

    /**
     * The end of something, read as its excluded last instant: "until the end of 30 Nov 2026" where a day of the site
     * ends then, otherwise "until 30 Nov 2026, 14:00".
     */
    public String until(Instant excluded, ZoneId zone) {
        LocalDate next = excluded.atZone(zone).toLocalDate();
        if (next.atStartOfDay(zone).toInstant().equals(excluded)) {
            return untilEndOf(next.minusDays(1));
        }
        return say("show.until", instant(excluded, zone));
    }

    /** The end of something on the clock of the site the page is about. */
    public String until(Instant excluded) {
        return until(excluded, here.zone());
    }

    /** Until the end of 30 Nov 2026; the day itself still counts. */
    public String untilEndOf(LocalDate lastDay) {
        return say("show.untilEndOf", day(lastDay));
    }

    /** From one instant until another on the site's clock. */
    public String interval(Instant from, Instant until, ZoneId zone) {
        return say("show.interval", instant(from, zone), until(until, zone));
    }

    /**
     * A span in words, its two largest parts, smaller ones cut: "1 h 20 min", "1 min 20 s", "3 days". Never negative:
     * the sign is dropped, the sentence around it says whether it is past or to come.
     */
    public String span(Duration span) {
        Duration length = span.abs();
        List<String> parts = new ArrayList<>();
        addPart(parts, "show.days", length.toDays());
        addPart(parts, "show.hours", length.toHoursPart());
        addPart(parts, "show.minutes", length.toMinutesPart());
        addPart(parts, "show.seconds", length.toSecondsPart());
        if (parts.isEmpty()) {
            return say("show.seconds", 0L);
        }
        return String.join(" ", parts.subList(0, Math.min(2, parts.size())));
    }

    private void addPart(List<String> parts, String key, long amount) {
        if (amount > 0) {
            parts.add(say(key, amount));
        }
    }

    /** A figure with the language's decimal mark, trailing zeros kept; from five whole digits on, groups of three. */
    public String figure(BigDecimal figure) {
        String[] halves = figure.abs().toPlainString().split("\\.");
        String sign = figure.signum() < 0 ? "\u2212" : "";
        String whole = sign + grouped(halves[0]);
        return halves.length == 1 ? whole : whole + DecimalText.decimalMark(locale()) + halves[1];
    }

    /** A figure and its unit, kept together by a narrow space that does not break. */
    public String figure(BigDecimal figure, String unit) {
        return figure(figure) + THIN + unit(unit);
    }

    /** A unit as people write it: mg/m³ for mg/m3, f/cm³ for f/cm3. Files and records keep their spelling, {@link AirUnit}. */
    public String unit(String unit) {
        return AirUnit.written(unit);
    }

    /** A count of things: 950, 1250, 120 000. */
    public String count(long count) {
        return figure(BigDecimal.valueOf(count));
    }

    private static String grouped(String digits) {
        return digits.length() < 5 ? digits : digits.replaceAll("(?<=[0-9])(?=([0-9]{3})+$)", THIN);
    }

    private String say(String key, Object... arguments) {
        return messages.getMessage(key, arguments, locale());
    }

    private static Locale locale() {
        return LocaleContextHolder.getLocale();
    }
}
