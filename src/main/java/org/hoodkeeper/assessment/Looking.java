package org.hoodkeeper.assessment;

import java.time.Instant;
import java.util.List;
import java.util.function.Predicate;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Told;
import org.jspecify.annotations.Nullable;

/** A look at one instant, and the next one at which the calendar, or a record that begins later, may change what is seen. */
class Looking {

    final Instant at;
    private Instant changesAt;

    /** @param changesAt known beforehand; {@link Instant#MAX} for never */
    Looking(Instant at, Instant changesAt) {
        this.at = at;
        this.changesAt = changesAt;
    }

    Instant changesAt() {
        return changesAt;
    }

    /** Something may change then; earlier or equal instants are no news. */
    void watch(@Nullable Instant instant) {
        if (instant != null && instant.isAfter(at) && instant.isBefore(changesAt)) {
            changesAt = instant;
        }
    }

    /** The newest record that had begun. */
    <F extends Fact> @Nullable Told<F> latest(List<Told<F>> newestFirst) {
        Told<F> next = null;
        for (Told<F> told : newestFirst) {
            if (told.from().isAfter(at)) {
                next = told;
                continue;
            }
            watch(next == null ? null : next.from());
            return told;
        }
        watch(next == null ? null : next.from());
        return null;
    }

    <F extends Fact> @Nullable Told<F> latest(List<Told<F>> newestFirst, Predicate<Told<F>> which) {
        for (Told<F> told : begun(newestFirst)) {
            if (which.test(told)) {
                return told;
            }
        }
        return null;
    }

    /** All records that had begun, newest first; the next one to begin is watched. */
    <F extends Fact> List<Told<F>> begun(List<Told<F>> newestFirst) {
        for (int i = 0; i < newestFirst.size(); i++) {
            if (!newestFirst.get(i).from().isAfter(at)) {
                watch(i == 0 ? null : newestFirst.get(i - 1).from());
                return i == 0 ? newestFirst : newestFirst.subList(i, newestFirst.size());
            }
        }
        watch(
                newestFirst.isEmpty()
                        ? null
                        : newestFirst.get(newestFirst.size() - 1).from());
        return List.of();
    }

    boolean isOver(@Nullable Instant end) {
        return end != null && !at.isBefore(end);
    }
}
