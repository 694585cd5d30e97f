package org.hoodkeeper.reporting;

import java.time.Instant;
import java.util.List;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.people.Worker;
import org.jspecify.annotations.Nullable;

/**
 * What a move of a task's basis did: people judged at one instant, as known before and as known now.
 *
 * @param sheet the sheet as known now
 * @param before the sheet as known before
 * @param since from when the new basis counts; none where nothing moved it
 * @param turned cleared as known before, and not now, for want of protection
 * @param stopped cleared as known before, and not now, for something else: the work is called harder, the assessment is over
 * @param freed not cleared as known before for want of protection, and cleared now
 * @param still cleared as known before and now
 * @param otherwise how many were not cleared before either
 * @param weakened only of a time ahead: cleared today with a model that would have done then and no longer will, and not cleared then
 *     for another reason
 * @param wears since then, in a set that did not protect enough while it was worn: for exposure review, the newest
 * @param wearsInAll how many they are, with those that are not listed
 */
public record BasisMove(
        TaskSheet sheet,
        TaskSheet before,
        @Nullable Instant since,
        List<Turned> turned,
        List<BoardRow> stopped,
        List<BoardRow> freed,
        List<BoardRow> still,
        int otherwise,
        List<BoardRow> weakened,
        List<Wearing> wears,
        int wearsInAll) {

    /** Somebody was cleared as known before: else nobody can be turned, whatever changes. */
    public boolean isAnybodyJudged() {
        return !turned.isEmpty() || !stopped.isEmpty() || !still.isEmpty();
    }

    /** @param row as known now @param ways one for each model that would do */
    public record Turned(BoardRow row, List<Way> ways) {}

    /**
     * What somebody may do about it with one model.
     *
     * @param others all that stands in the way where it is more than training and fit test, as the reader may see it
     */
    public record Way(String model, Step step, List<Reason> others) {

        public Way {
            others = List.copyOf(others);
        }
    }

    public enum Step {
        /** Cleared with it but for a set in hand. */
        MAY_WEAR,
        NEEDS_TRAINING,
        NEEDS_FIT_TEST,
        NEEDS_BOTH,
        /** Something else stands in the way, and is named. */
        OTHER
    }

    /** @param until none while no exit is on record */
    public record Wearing(
            Worker worker,
            String set,
            String model,
            Instant from,
            @Nullable Instant until) {}
}
