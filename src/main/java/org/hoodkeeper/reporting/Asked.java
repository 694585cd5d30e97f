package org.hoodkeeper.reporting;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A question in the site's own words: numbers, codes and labels.
 *
 * @param set the set's label; or else model and size
 * @param from first instant of wear, included
 * @param until end of wear, excluded
 * @param knownAt what the site had been told by then decides; none for now
 * @param swaps planned battery swaps
 */
public record Asked(
        String worker,
        String task,
        @Nullable String set,
        @Nullable String model,
        @Nullable String size,
        Instant from,
        Instant until,
        @Nullable Instant knownAt,
        List<Instant> swaps) {}
