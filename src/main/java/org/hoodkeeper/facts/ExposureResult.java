package org.hoodkeeper.facts;

import java.math.BigDecimal;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A sample taken at a task; the scope is the substance. Measured outside of the device, as if none were worn.
 *
 * @param value concentration in {@code unit}; for a result below detection the detection limit. Where {@code parts} are given it
 *     is their average over eight hours
 * @param belowDetection the value is the detection limit
 * @param minutes sampled time
 * @param person the worker's number where the sample is personal
 * @param group the group exposed alike that the sample speaks for; none where the task is one such group
 * @param period which limit it is set against; none means the whole shift
 * @param parts what was measured one after the other within the shift, where the value was averaged from it
 */
public record ExposureResult(
        BigDecimal value,
        String unit,
        boolean belowDetection,
        @Nullable Integer minutes,
        @Nullable String method,
        @Nullable String person,
        @Nullable String laboratory,
        @Nullable String group,
        @Nullable Period period,
        List<Part> parts)
        implements Fact {

    /** What a result is set against. */
    public enum Period {
        /** The long-term limit. */
        SHIFT,
        /** The short-term limit: a peak of a quarter of an hour unless the limit says otherwise. */
        SHORT_TERM,
        /** The ceiling, never to be exceeded. */
        CEILING
    }

    /** @param minutes how long that concentration was breathed */
    public record Part(BigDecimal value, int minutes) {}

    public ExposureResult {
        unit = AirUnit.spelled(unit);
        parts = parts == null ? List.of() : List.copyOf(parts);
    }

    /** A result of a whole shift, of the task's one group. */
    public ExposureResult(
            BigDecimal value,
            String unit,
            boolean belowDetection,
            @Nullable Integer minutes,
            @Nullable String method,
            @Nullable String person,
            @Nullable String laboratory) {
        this(value, unit, belowDetection, minutes, method, person, laboratory, null, null, List.of());
    }

    public Period against() {
        return period == null ? Period.SHIFT : period;
    }
}
