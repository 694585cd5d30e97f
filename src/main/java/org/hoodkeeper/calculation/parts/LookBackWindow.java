package org.hoodkeeper.calculation.parts;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.hoodkeeper.kernel.RecordId;
import org.jspecify.annotations.Nullable;

/**
 * Since when a fault may have been there: from the last check that would have caught <em>this</em> fault, passed, with a valid
 * instrument, by somebody competent; until the set came out of use.
 *
 * @param from the last such check, included; none where there is none: then everything ever is inside
 * @param until when it came out of use, excluded
 * @param proof that check
 * @param refused later checks that do not count, newest first, each with why
 */
public record LookBackWindow(
        @Nullable Instant from, Instant until, @Nullable Check proof, List<Check> refused) {

    public LookBackWindow {
        refused = List.copyOf(refused);
    }

    /** Why a check proves nothing about this fault. */
    public enum Refusal {
        FAILED,
        /** It looks at something else. */
        OTHER_FAULT,
        INSTRUMENT_NOT_VALID,
        /** Nobody wrote down with which instrument. */
        INSTRUMENT_NOT_NAMED,
        NO_READING,
        BELOW_MINIMUM,
        NOT_COMPETENT,
        /** Too weak, too short, or with a product that the model does not list. */
        NOT_AS_LISTED,
        WIPE_ONLY,
        ITEM_NOT_LOOKED_AT
    }

    /** @param refusal why it does not count; none where it does */
    public record Check(
            RecordId record, Instant at, @Nullable Refusal refusal) {

        public boolean counts() {
            return refusal == null;
        }
    }

    /**
     * @param checks in any order
     * @param found when the fault was found; a check at that very instant is the one that found it and does not count
     * @param outOfUse when the set came out of use, not before {@code found} was known; usually the same
     */
    public static LookBackWindow of(List<Check> checks, Instant found, Instant outOfUse) {
        List<Check> before = checks.stream()
                .filter(check -> check.at().isBefore(found))
                .sorted(Comparator.comparing(Check::at).reversed())
                .toList();
        List<Check> refused = new ArrayList<>();
        for (Check check : before) {
            if (check.counts()) {
                return new LookBackWindow(check.at(), outOfUse, check, refused);
            }
            refused.add(check);
        }
        return new LookBackWindow(null, outOfUse, null, refused);
    }

    /** Whether a wear lies in it, at least in part. @param end of the wear, excluded; none while it goes on */
    public boolean touches(Instant begin, @Nullable Instant end) {
        return begin.isBefore(until) && (from == null || end == null || end.isAfter(from));
    }
}
