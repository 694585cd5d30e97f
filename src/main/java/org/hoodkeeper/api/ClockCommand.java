package org.hoodkeeper.api;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/**
 * What {@code ops/clock} sends.
 *
 * @param instant date and time with an offset, as in {@code 2027-03-01T06:30:00Z}
 */
record ClockCommand(@Nullable String instant) {

    /** @throws Refused when there is no instant, or none that says its offset */
    Instant to() {
        if (instant == null || instant.isBlank()) {
            throw new Refused("rehearsal.instant.missing");
        }
        try {
            return OffsetDateTime.parse(instant.strip()).toInstant();
        } catch (DateTimeParseException e) {
            throw new Refused("rehearsal.instant.unreadable", instant);
        }
    }
}
