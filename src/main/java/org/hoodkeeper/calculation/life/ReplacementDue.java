package org.hoodkeeper.calculation.life;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * When a part is due: the first of all limits that apply to it. A limit by age runs from the day of manufacture; from the day it
 * was first fitted only where that day is documented and the part cannot have been mixed up with another (older German rule
 * for breathing protection, restated). An age that nobody knows is over.
 *
 * @param limit which limit comes first
 * @param lastDay last day on which it may be used; none where the limit is a count, or the age is unknown
 * @param left wears, hours or washes left; none where the limit is a day. Negative when it is over
 */
public record ReplacementDue(
        Limit limit, @Nullable LocalDate lastDay, @Nullable Integer left) {

    public enum Limit {
        AGE_UNKNOWN,
        SHELF_LIFE,
        AGE_SINCE_MADE,
        AGE_SINCE_FITTED,
        WEARS,
        HOURS,
        WASHES,
        PLANNED_WEARS
    }

    /**
     * What is known of a part and of its limits; none for what is not limited.
     *
     * @param madeOn day of manufacture; a month alone counts from its first day
     * @param firstFittedOn documented first fit; none where it is not documented
     * @param mixUpExcluded whether the part carries a serial, so that it is certainly the one first fitted then
     * @param shelfLastDay last day by which it must be fitted or used, from its label
     * @param lifeMonths longest life, months
     * @param lifeFrom from which day the maker counts it
     * @param wears worn so far; {@code mostWears} the maker's limit; {@code plannedWears} the site's own B10 policy
     */
    public record Known(
            @Nullable LocalDate madeOn,
            @Nullable LocalDate firstFittedOn,
            boolean mixUpExcluded,
            @Nullable LocalDate shelfLastDay,
            @Nullable Integer lifeMonths,
            LifeFrom lifeFrom,
            int wears,
            @Nullable Integer mostWears,
            int hours,
            @Nullable Integer mostHours,
            int washes,
            @Nullable Integer mostWashes,
            @Nullable Integer plannedWears) {}

    public enum LifeFrom {
        MADE,
        /** From the documented first fit; from manufacture where that is not certain. */
        FIRST_FITTED
    }

    /** Every limit of a part, the first due first; empty where nothing limits it. @param perDay wears, hours and washes a day, for the order */
    public static List<ReplacementDue> of(Known part, LocalDate today, double perDay) {
        List<ReplacementDue> all = new ArrayList<>();
        if (part.shelfLastDay() != null) {
            all.add(new ReplacementDue(Limit.SHELF_LIFE, part.shelfLastDay(), null));
        }
        if (part.lifeMonths() != null) {
            all.add(byAge(part, part.lifeMonths()));
        }
        count(all, Limit.WEARS, part.mostWears(), part.wears());
        count(all, Limit.HOURS, part.mostHours(), part.hours());
        count(all, Limit.WASHES, part.mostWashes(), part.washes());
        count(all, Limit.PLANNED_WEARS, part.plannedWears(), part.wears());
        all.sort(Comparator.comparing(due -> due.expectedOn(today, perDay)));
        return all;
    }

    private static ReplacementDue byAge(Known part, int months) {
        boolean fromFit =
                part.lifeFrom() == LifeFrom.FIRST_FITTED && part.firstFittedOn() != null && part.mixUpExcluded();
        LocalDate from = fromFit ? part.firstFittedOn() : part.madeOn();
        if (from == null) {
            return new ReplacementDue(Limit.AGE_UNKNOWN, null, null);
        }
        return new ReplacementDue(
                fromFit ? Limit.AGE_SINCE_FITTED : Limit.AGE_SINCE_MADE, from.plusMonths(months), null);
    }

    private static void count(List<ReplacementDue> all, Limit limit, @Nullable Integer most, int so) {
        if (most != null) {
            all.add(new ReplacementDue(limit, null, most - so));
        }
    }

    /** Over now: its last day has passed, nothing is left, or nobody knows its age. */
    public boolean isOver(LocalDate today) {
        if (limit == Limit.AGE_UNKNOWN) {
            return true;
        }
        return lastDay != null ? today.isAfter(lastDay) : left != null && left <= 0;
    }

    /** Last day at the usual pace; for a count without any use far ahead. */
    public LocalDate expectedOn(LocalDate today, double perDay) {
        if (limit == Limit.AGE_UNKNOWN) {
            return LocalDate.MIN;
        }
        if (lastDay != null) {
            return lastDay;
        }
        int still = left == null ? 0 : left;
        return perDay <= 0 && still > 0 ? LocalDate.MAX : today.plusDays(still <= 0 ? still : (long) (still / perDay));
    }
}
