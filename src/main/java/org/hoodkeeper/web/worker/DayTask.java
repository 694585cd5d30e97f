package org.hoodkeeper.web.worker;

import java.time.Instant;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.reporting.DayAnswers;
import org.jspecify.annotations.Nullable;

/**
 * One task of the day.
 *
 * @param set label of the set in hand; none where none is issued
 * @param verdict of the plan, or of as much of it as is cleared from its start
 * @param sentence the answer
 * @param note what comes after it; none where nothing is known
 * @param flow when the flow is checked again while it is worn; none for a device without flow, or where the stint is too short
 * @param step what the worker does next
 * @param until the end of what is cleared; none where nothing is
 * @param line what it rests on
 */
public record DayTask(
        String task,
        @Nullable String set,
        Verdict verdict,
        String sentence,
        @Nullable String note,
        @Nullable String flow,
        Step step,
        @Nullable Instant until,
        DayAnswers.Line line) {

    enum Step {
        /** Inside: come out and say so. */
        LEAVE,
        /** Look the set over and put it on. */
        CHECK,
        ENTER,
        /** Somebody else has to do something first. */
        NONE
    }
}
