package org.hoodkeeper.facts;

import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Nobody wears it, or the person does not wear, until it is released.
 *
 * @param step placed, or released; a release names the hold as its item
 * @param why the sort of hold
 */
public record Hold(Step step, Why why, @Nullable String reason) implements Fact {

    public enum Step {
        PLACED,
        RELEASED
    }

    public enum Why {
        /** Delivered, and not yet accepted. */
        NOT_ACCEPTED,
        DEFECT,
        RECALL,
        QUARANTINE,
        UNDER_REPAIR,
        /** Kept as found, uncleaned, as evidence. */
        IMPOUNDED,
        MISSING,
        WITHDRAWN,
        /** Withdrawn, made unusable and gone to waste: for good. */
        DISPOSED,
        /** A mask still carries the adapter of a fit test. */
        TEST_ADAPTED,
        /** A person is stopped by supervisor or officer. */
        SUSPENDED,
        /** Custody is contradictory until the set is scanned. */
        DISPUTED,
        OTHER
    }

    /** Whether one of those lay on its thing at an instant: placed by then, and not released by then. @param all in any order */
    public static boolean lay(List<Told<Hold>> all, Instant at) {
        Set<UUID> released = new HashSet<>();
        for (Told<Hold> told : all) {
            if (told.fact().step() == Step.RELEASED
                    && told.item() != null
                    && !told.from().isAfter(at)) {
                released.add(told.item());
            }
        }
        for (Told<Hold> told : all) {
            if (told.fact().step() == Step.PLACED
                    && !told.from().isAfter(at)
                    && !released.contains(told.id().value())) {
                return true;
            }
        }
        return false;
    }
}
