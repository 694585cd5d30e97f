package org.hoodkeeper.assessment;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.calculation.WearTime;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.rules.InForce;
import org.jspecify.annotations.Nullable;

/** What a person has worn, as stretches of time. */
final class Worn {

    private static final Duration SHIFT_ENDS_AFTER = Duration.ofHours(8);

    /** Wear that began longer ago is of no shift that is still on; an entry without an exit is a gap in the record by then. */
    private static final Duration LONGEST_SHIFT = Duration.ofDays(2);

    private Worn() {}

    /**
     * Entry and exit paired by worker and set, each entry with the first exit after it; a wear that has not ended lasts until
     * the given instant. An exit without an entry gives no stretch.
     *
     * @param newestFirst wears of one worker, or of one set
     */
    static List<Stretch> stretches(List<Told<Wear>> newestFirst, Instant until) {
        List<Stretch> stretches = new ArrayList<>();
        Map<UUID, Told<Wear>> exits = new HashMap<>();
        for (Told<Wear> told : newestFirst) {
            if (!told.from().isBefore(until)) {
                continue;
            }
            UUID pair = told.item() == null ? told.subject() : told.item();
            UUID key = new UUID(
                    pair.getMostSignificantBits() ^ told.subject().getMostSignificantBits(),
                    pair.getLeastSignificantBits() ^ told.subject().getLeastSignificantBits());
            switch (told.fact().step()) {
                case EXIT -> exits.put(key, told);
                case ENTRY -> {
                    Told<Wear> exit = exits.remove(key);
                    add(stretches, told, exit == null ? until : exit.from());
                }
                case WHOLE -> add(stretches, told, told.until() == null ? until : earlier(told.until(), until));
            }
        }
        return stretches;
    }

    private static void add(List<Stretch> stretches, Told<Wear> told, Instant end) {
        if (told.from().isBefore(end)) {
            stretches.add(new Stretch(told, new Interval(told.from(), end)));
        }
    }

    /** @param entry the record of the entry, or of the whole wear */
    record Stretch(Told<Wear> entry, Interval interval) {}

    /** When a longest wear in one shift is reached, if the person wears without a pause from the question's start. */
    static Instant limitReached(Judging judging, Duration longest) {
        Instant start = judging.question.wear().from();
        List<Interval> before = new ArrayList<>();
        for (Stretch stretch : stretches(judging.dossier.worker().wears(), start)) {
            if (isOfShift(stretch.entry(), start)) {
                before.add(stretch.interval());
            }
        }
        return start.plus(new WearTime(before, shiftEndsAfter(judging)).remaining(longest, start));
    }

    /** Whether a wear that began then can still be on; an older entry without an exit is a gap in the record. */
    static boolean isOfShift(Told<Wear> wear, Instant start) {
        return !wear.from().isBefore(start.minus(LONGEST_SHIFT));
    }

    static Duration shiftEndsAfter(Judging judging) {
        InForce.@Nullable Decided decided = judging.rules.decision("shift.ends-after");
        return decided == null ? SHIFT_ENDS_AFTER : decided.duration();
    }

    /** When wears of the last days cease to belong to the shift of a question that begins then. */
    static List<Instant> shiftEnds(Judging judging) {
        Duration pause = shiftEndsAfter(judging);
        List<Instant> ends = new ArrayList<>();
        for (Told<Wear> told : judging.dossier.worker().wears()) {
            for (Instant edge : new Instant[] {told.from(), told.until() == null ? told.from() : told.until()}) {
                ends.add(edge.plus(pause));
                ends.add(edge.plus(LONGEST_SHIFT));
                // from the next instant on it is longer ago than that
                ends.add(edge.plus(LONGEST_SHIFT).plusNanos(1_000));
            }
        }
        return ends;
    }

    private static Instant earlier(Instant one, Instant other) {
        return one.isBefore(other) ? one : other;
    }
}
