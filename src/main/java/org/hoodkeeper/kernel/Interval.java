package org.hoodkeeper.kernel;

import java.time.Duration;
import java.time.Instant;

/** From one instant, included, until another, excluded. */
public record Interval(Instant from, Instant until) {

    public Interval {
        if (!from.isBefore(until)) {
            throw new Refused("interval.order", from, until);
        }
    }

    public boolean contains(Instant instant) {
        return !instant.isBefore(from) && instant.isBefore(until);
    }

    public boolean overlaps(Interval other) {
        return from.isBefore(other.until) && other.from.isBefore(until);
    }

    /** Elapsed time, not the difference of wall clocks: a night over the clock change has nine hours. */
    public Duration length() {
        return Duration.between(from, until);
    }
}
