package org.hoodkeeper.assessment;

import java.math.BigDecimal;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.Told;
import org.jspecify.annotations.Nullable;

/**
 * One substance in the air of a task, against one of its limits.
 *
 * @param value the concentration that decides, in {@code unit}
 * @param stated what the assessment states; none where it says nothing of it
 * @param origin where the value comes from
 * @param movedBy the newest result that moved it beyond what is stated; none where none did
 * @param limit the limit in force; none where none is on record
 * @param limitValue what is left of it on the task's shift
 * @param problem why it cannot be set against its limit; none where it can
 */
public record AirPart(
        String substance,
        ExposureResult.Period period,
        BigDecimal value,
        String unit,
        @Nullable BigDecimal stated,
        Origin origin,
        @Nullable Told<ExposureResult> movedBy,
        @Nullable Told<Limit> limit,
        @Nullable BigDecimal limitValue,
        @Nullable Why problem) {

    /** Where a figure comes from. */
    public enum Origin {
        /** The assessment states it. */
        ASSESSMENT,
        /** The deciding statistic of the results, which lies above what the assessment states. */
        RESULTS,
        /** The highest single result: there are too few for the statistic, or it is a peak. */
        HIGHEST
    }
}
