package org.hoodkeeper.facts;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * A sample taken at a task; the scope is the substance.
 *
 * @param value concentration in {@code unit}; for a result below detection the detection limit
 * @param belowDetection the value is the detection limit
 * @param minutes sampled time
 * @param person the worker's number where the sample is personal
 */
public record ExposureResult(
        BigDecimal value,
        String unit,
        boolean belowDetection,
        @Nullable Integer minutes,
        @Nullable String method,
        @Nullable String person,
        @Nullable String laboratory)
        implements Fact {}
