package org.hoodkeeper.web.hygienist;

import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.NotEmpty;
import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.web.Choice;
import org.jspecify.annotations.Nullable;

/**
 * What a round is drawn with.
 *
 * @param from the first day that may be drawn; tomorrow where left out, since of today part is over
 * @param days how many days are drawn of, counted among the weekdays alone
 * @param weekdays on which the task is worked; Monday to Friday where left out
 * @param firstHour the hour of the day at which the shift begins; it may run over midnight and still belongs to its first day
 * @param hours its length
 * @param share per cent of the looks that must not go wrong unseen
 * @param seed from the first day where left out
 * @param known the moment of knowledge, so that the same people are drawn from; now where left out
 */
public record RoundForm(
        @Nullable LocalDate from,
        @Min(1) @Max(31) Integer days,
        @NotEmpty List<DayOfWeek> weekdays,
        @Min(0) @Max(23) Integer firstHour,
        @Min(1) @Max(24) Integer hours,
        BigDecimal share,
        @Nullable Integer seed,
        @Nullable String known) {

    private static final int USUAL_FIRST_HOUR = 6;
    private static final int USUAL_HOURS = 8;
    private static final int USUAL_DAYS = 5;

    /** Whoever asks for no figure gets the usual one, and sees it in the field. */
    public RoundForm {
        days = days == null ? USUAL_DAYS : days;
        weekdays = weekdays == null
                ? List.copyOf(EnumSet.range(DayOfWeek.MONDAY, DayOfWeek.FRIDAY))
                : Choice.made(weekdays);
        firstHour = firstHour == null ? USUAL_FIRST_HOUR : firstHour;
        hours = hours == null ? USUAL_HOURS : hours;
        share = share == null ? BigDecimal.TEN : share;
    }

    RoundForm orUsual(LocalDate today, Instant now) {
        LocalDate first = from == null ? today.plusDays(1) : from;
        return new RoundForm(
                first,
                days,
                weekdays,
                firstHour,
                hours,
                share,
                seed == null ? Integer.valueOf((int) first.toEpochDay()) : seed,
                known == null || known.isBlank() ? now.toString() : known);
    }

    /** The first days from the first on that fall on one of the weekdays, in their order. */
    List<LocalDate> daysDrawn() {
        return Stream.iterate(Objects.requireNonNull(from), day -> day.plusDays(1))
                .filter(day -> weekdays.contains(day.getDayOfWeek()))
                .limit(days)
                .toList();
    }

    int seedOf() {
        return Objects.requireNonNull(seed);
    }

    /** @throws Refused {@code moment.at.unreadable}; a moment that has not come yet counts as now */
    Instant knownAt(Instant now) {
        try {
            Instant typed = Instant.parse(Objects.requireNonNull(known));
            return typed.isAfter(now) ? now : typed;
        } catch (DateTimeException unreadable) {
            throw new Refused("moment.at.unreadable", known);
        }
    }
}
