package org.hoodkeeper.reporting;

import java.time.Instant;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/**
 * The moment a page shows, and what was known.
 *
 * @param at the moment itself
 * @param knownAt told by then decides
 * @param view which of the three it is
 */
public record Moment(Instant at, Instant knownAt, View view) {

    /** What a page shows. */
    public enum View {
        /** Now, as known now. */
        NOW,
        /** A moment, as known now. */
        AS_KNOWN_NOW,
        /** A moment, as known then: what the screen said. Computed anew, not the stored answer. */
        AS_KNOWN_THEN
    }

    /** @throws Refused {@code moment.at.future} for a moment that lies more than a year ahead */
    public static Moment of(@Nullable Instant at, boolean knownThen, Instant now) {
        if (at == null) {
            return new Moment(now, now, View.NOW);
        }
        if (at.isAfter(now.plusSeconds(366L * 24 * 3600))) {
            throw new Refused("moment.at.future", at);
        }
        return knownThen && at.isBefore(now)
                ? new Moment(at, at, View.AS_KNOWN_THEN)
                : new Moment(at, now, View.AS_KNOWN_NOW);
    }

    /** The same moment with other knowledge of it. @param known not before the moment itself */
    public Moment knownAt(Instant known) {
        return new Moment(at, known, known.equals(at) ? View.AS_KNOWN_THEN : View.AS_KNOWN_NOW);
    }

    /** Whether it lies before now: then what was known then may differ from what is known now. */
    public boolean isPast(Instant now) {
        return view != View.NOW && at.isBefore(now);
    }

    /** Looked at from the door: what can only be done at the start is still to do. A past moment as known now is over. */
    public boolean isAtTheDoor() {
        return view != View.AS_KNOWN_NOW || at.isAfter(knownAt);
    }
}
