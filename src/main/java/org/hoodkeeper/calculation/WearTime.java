package org.hoodkeeper.calculation;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.Refused;

/**
 * How long somebody has worn a device, in elapsed time, shift by shift. A shift ends when nothing has been worn for as long as
 * the site says (a pause of exactly that length ends it); stretches that overlap or touch count once. A clock change alters
 * nothing, since instants are counted.
 */
public final class WearTime {

    private final List<Interval> stretches;

    private final Duration shiftEndsAfter;

    /**
     * @param worn stretches of wear of one person, in any order
     * @param shiftEndsAfter time without wear that ends a shift, longer than 0
     */
    public WearTime(Collection<Interval> worn, Duration shiftEndsAfter) {
        requirePositive(shiftEndsAfter);
        this.stretches = merged(worn);
        this.shiftEndsAfter = shiftEndsAfter;
    }

    /** Time worn up to an instant in the shift that is on then; zero where the last shift has ended or none began. */
    public Duration wornBy(Instant instant) {
        Duration worn = Duration.ZERO;
        Instant end = null;
        for (Interval stretch : stretches) {
            if (!stretch.from().isBefore(instant)) {
                break;
            }
            if (end != null && endsShift(end, stretch.from())) {
                worn = Duration.ZERO;
            }
            end = stretch.until().isBefore(instant) ? stretch.until() : instant;
            worn = worn.plus(Duration.between(stretch.from(), end));
        }
        return end == null || endsShift(end, instant) ? Duration.ZERO : worn;
    }

    /** What a limit for one shift leaves at an instant; never below zero. */
    public Duration remaining(Duration limit, Instant at) {
        requireLimit(limit);
        Duration left = limit.minus(wornBy(at));
        return left.isNegative() ? Duration.ZERO : left;
    }

    /**
     * How far a plan may go: the instant at which wearing without a pause from its start reaches the limit, or the plan's own
     * end if that comes first. Equal to the plan's start when nothing is left. Wear on record after the plan's start is not
     * counted: the plan stands in its place.
     */
    public Instant lastsUntil(Duration limit, Interval plan) {
        Instant reached = plan.from().plus(remaining(limit, plan.from()));
        return reached.isBefore(plan.until()) ? reached : plan.until();
    }

    private boolean endsShift(Instant lastWorn, Instant next) {
        return Duration.between(lastWorn, next).compareTo(shiftEndsAfter) >= 0;
    }

    private static List<Interval> merged(Collection<Interval> worn) {
        List<Interval> merged = new ArrayList<>();
        for (Interval next :
                worn.stream().sorted(Comparator.comparing(Interval::from)).toList()) {
            int last = merged.size() - 1;
            if (last >= 0 && !next.from().isAfter(merged.get(last).until())) {
                Interval before = merged.get(last);
                Instant until = before.until().isAfter(next.until()) ? before.until() : next.until();
                merged.set(last, new Interval(before.from(), until));
            } else {
                merged.add(next);
            }
        }
        return List.copyOf(merged);
    }

    private static void requirePositive(Duration pause) {
        if (pause.isZero() || pause.isNegative()) {
            throw new Refused("calculation.shiftPause.notPositive", pause.toMinutes());
        }
    }

    private static void requireLimit(Duration limit) {
        if (limit.isNegative()) {
            throw new Refused("calculation.wearLimit.negative", limit.toMinutes());
        }
    }
}
