package org.hoodkeeper.assessment;

import java.math.BigDecimal;
import java.util.List;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.TaskBasis.Exposure;
import org.hoodkeeper.facts.Told;
import org.jspecify.annotations.Nullable;

/**
 * What an assessment states of a substance over a shift, beside what the results on record say of it by the statistic that the
 * site decides by.
 *
 * @param stated what the assessment states; none where it says nothing of a substance that was sampled
 * @param unit of the results; where they are in several, of the newest
 * @param value the deciding statistic of the worst group, or the highest result where they are too few for it, in
 *     {@code unit}; none where they are in several units, or none lies above detection
 * @param origin where the value comes from
 * @param results newest first, at least one
 * @param leftOut the assessment leaves all of them out, as of another way of working
 */
public record Weighed(
        String substance,
        @Nullable Exposure stated,
        String unit,
        @Nullable BigDecimal value,
        AirPart.Origin origin,
        List<Told<ExposureResult>> results,
        boolean leftOut) {

    public Weighed {
        results = List.copyOf(results);
    }

    /** The figures stand in one unit, so that either is the lower. */
    public boolean isComparable() {
        return value != null && (stated == null || stated.unit().equals(unit));
    }

    /** The assessment states less than the results say, or nothing at all. */
    public boolean isBelow() {
        return value != null
                && isComparable()
                && (stated == null || stated.value().compareTo(value) < 0);
    }
}
