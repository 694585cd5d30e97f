package org.hoodkeeper.calculation.parts;

import java.time.Instant;
import java.time.LocalDate;
import org.hoodkeeper.kernel.SetId;
import org.jspecify.annotations.Nullable;

/**
 * A part in a place of a set, from when it was fitted until the next one was.
 *
 * @param place for instance {@code hose}
 * @param lot none where not recorded
 * @param until when another part took its place, excluded; none while it is in
 */
public record Fitting(
        SetId set,
        String place,
        String part,
        @Nullable String lot,
        @Nullable String serial,
        @Nullable LocalDate madeOn,
        Instant from,
        @Nullable Instant until) {

    public boolean isInAt(Instant at) {
        return !at.isBefore(from) && (until == null || at.isBefore(until));
    }

    public boolean overlaps(Instant begin, Instant end) {
        return from.isBefore(end) && (until == null || begin.isBefore(until));
    }
}
