package org.hoodkeeper.reporting;

import java.time.Duration;
import java.time.Instant;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.WorkerId;
import org.jspecify.annotations.Nullable;

/**
 * One wear, from going in until coming out.
 *
 * @param entry the version of the record that says so now
 * @param exit the record of coming out; none where both were told together, or nobody came out yet
 * @param root the first version of the entry: the wear's name, whatever is corrected later
 * @param until none where nobody came out yet
 * @param toldAt when the site was told of the entry
 */
public record Worn(
        RecordId entry,
        @Nullable RecordId exit,
        RecordId root,
        WorkerId worker,
        SetId set,
        TaskId task,
        Instant from,
        @Nullable Instant until,
        Instant toldAt) {

    /** An entry whose exit was forgotten is over by then, as for the worker's own page. */
    public static final Duration LONGEST = Duration.ofHours(24);

    private static final Duration SHORTEST = Duration.ofMinutes(1);

    /** What is judged of it. @param now where nobody came out yet, it lasts until now, at most 24 hours */
    public Interval judged(Instant now) {
        Instant end = until;
        if (end == null) {
            Instant forgotten = from.plus(LONGEST);
            end = now.isBefore(forgotten) ? now : forgotten;
        }
        return new Interval(from, end.isAfter(from.plus(SHORTEST)) ? end : from.plus(SHORTEST));
    }
}
