package org.hoodkeeper.facts;

import java.time.Instant;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What was done about a look-back. The look-back itself is never told: it follows from the failure, the item by its first version,
 * and from the checks before it.
 *
 * @param since from when the fault counted as possible when it was decided; none for everything since the set came
 * @param wears how many wears lay inside then: when more do, or the start moves back, it is decided anew
 * @param measures what was decided; empty where nothing more is needed
 * @param reason why so, or what was done
 */
public record LookBack(
        Step step,
        @Nullable Instant since,
        int wears,
        Set<Measure> measures,
        @Nullable String reason) implements Fact {

    public enum Step {
        DECIDED,
        CLOSED
    }

    /** What follows for people and things; common practice, no source but duties on failures in use. */
    public enum Measure {
        TELL_WEARERS,
        OFFER_HEALTH,
        KEEP_EXPOSURE,
        CHECK_SHARED
    }

    public LookBack {
        measures = Ordered.copy(measures);
    }
}
