package org.hoodkeeper.calculation.stock;

import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import org.hoodkeeper.kernel.Interval;

/**
 * How long things were away, out of how long there were any.
 *
 * @param spells times away, those that overlap or touch counted as one
 * @param away time away, no moment counted twice
 * @param all time that they were there or away
 */
public record Away(int spells, Duration away, Duration all) {

    public static final Away NONE = new Away(0, Duration.ZERO, Duration.ZERO);

    /** Of one thing. @param within what lies outside of it is cut off */
    public static Away of(List<Interval> spells, Interval within) {
        List<Interval> sorted = spells.stream()
                .filter(within::overlaps)
                .sorted(Comparator.comparing(Interval::from))
                .toList();
        int count = 0;
        Duration away = Duration.ZERO;
        Instant reached = Instant.MIN;
        for (Interval spell : sorted) {
            Instant from = spell.from().isBefore(within.from()) ? within.from() : spell.from();
            Instant until = spell.until().isAfter(within.until()) ? within.until() : spell.until();
            if (from.isAfter(reached)) {
                count++;
            } else {
                from = reached;
            }
            if (until.isAfter(from)) {
                away = away.plus(Duration.between(from, until));
                reached = until;
            }
        }
        return new Away(count, away, within.length());
    }

    public Away plus(Away other) {
        return new Away(spells + other.spells, away.plus(other.away), all.plus(other.all));
    }

    /** Share of the time, 0 to 1; 0 where there was no time. */
    public double share() {
        return all.isZero() ? 0 : (double) away.toSeconds() / all.toSeconds();
    }
}
