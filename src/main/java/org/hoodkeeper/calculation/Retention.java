package org.hoodkeeper.calculation;

import java.time.LocalDate;
import java.time.Period;
import java.util.Collection;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/**
 * How long one record must be kept: through its last day, or with no end yet (the anchor has not happened: still employed, no
 * next test; or a legal hold). Which span and anchor apply comes from the rule set.
 *
 * @param lastDay last day on which it must still exist, that day included; none while no end is known
 */
public record Retention(@Nullable LocalDate lastDay) {

    /**
     * Counted from the day that the rule names: the day made, the last entry, the end of employment.
     *
     * @param anchor that day; where it has not happened yet there is no end
     * @param span not negative; years and months are calendar ones, on 29 February the last day of the month where there is
     *     none
     */
    public static Retention counted(@Nullable LocalDate anchor, Period span) {
        if (span.isNegative()) {
            throw new Refused("calculation.retention.negative", span);
        }
        return new Retention(anchor == null ? null : anchor.plus(span));
    }

    /** Kept until the next record of its kind replaces it; no end while there is none. */
    public static Retention untilReplaced(@Nullable LocalDate replacedOn) {
        return new Retention(replacedOn);
    }

    /** No end: a legal hold. */
    public static Retention hold() {
        return new Retention(null);
    }

    /** The longest of all that apply decides; one without an end outlasts all. None at all is refused. */
    public static Retention longest(Collection<Retention> all) {
        if (all.isEmpty()) {
            throw new Refused("calculation.retention.none");
        }
        LocalDate latest = LocalDate.MIN;
        for (Retention one : all) {
            if (one.lastDay == null) {
                return hold();
            }
            latest = one.lastDay.isAfter(latest) ? one.lastDay : latest;
        }
        return new Retention(latest);
    }

    /** Whether the record need no longer be kept on a day. */
    public boolean isOverOn(LocalDate day) {
        return lastDay != null && day.isAfter(lastDay);
    }
}
