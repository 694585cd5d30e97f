package org.hoodkeeper.facts;

import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * What was done about a finding. The finding itself is never told: it follows from the wear that the record names and from what
 * was known of it.
 *
 * @param owner the account that answers for it; on the step that gives it to somebody
 * @param dueOn the last day on which it shall be closed; on the same step
 * @param action what was done; on the step that closes it
 */
public record Finding(
        Sort sort,
        Step step,
        @Nullable UUID owner,
        @Nullable LocalDate dueOn,
        @Nullable String action) implements Fact {

    public enum Sort {
        /** Worn while the screen said no, whatever later evidence says. */
        CONTROL_FAILURE,
        /** Worn with no cover, as known now. */
        PROTECTION_GAP
    }

    public enum Step {
        ASSIGNED,
        CLOSED
    }
}
