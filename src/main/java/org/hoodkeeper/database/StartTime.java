package org.hoodkeeper.database;

import java.sql.SQLException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.core.env.Environment;

/**
 * The service time asked for at the start.
 *
 * @param rehearsal where a rehearsal begins; null when real time runs
 */
record StartTime(@Nullable Instant rehearsal) {

    static StartTime from(Environment environment) {
        String text = environment.getProperty("hoodkeeper.clock");
        if (text == null || text.isBlank()) {
            return new StartTime(null);
        }
        try {
            return new StartTime(Instant.parse(text.trim()));
        } catch (DateTimeParseException e) {
            throw new CannotStart("HOODKEEPER_CLOCK=" + text
                    + " is not an instant. Give one with its offset, for example 2027-03-01T06:30:00Z.");
        }
    }

    boolean isRehearsal() {
        return rehearsal != null;
    }

    /**
     * Sees to it that kept data never sees the clock go back.
     *
     * @throws CannotStart when the data has reached a later time than the one asked for
     */
    void refuseGoingBack(ClockTable table) {
        try {
            Optional<Instant> reached = table.reached();
            if (reached.isPresent()) {
                refuseBefore(reached.get());
            }
        } catch (SQLException e) {
            throw new CannotStart("the time that the kept data has reached cannot be read: " + e.getMessage());
        }
    }

    private void refuseBefore(Instant reached) {
        if (rehearsal != null) {
            if (rehearsal.isBefore(reached)) {
                throw new CannotStart("HOODKEEPER_CLOCK=" + rehearsal + " is earlier than " + reached
                        + ", which the kept data has already reached. Start at that time or later, or choose a new"
                        + " folder with --hoodkeeper.data-dir=FOLDER.");
            }
            return;
        }
        Duration early = Duration.between(Clock.systemUTC().instant(), reached);
        if (early.compareTo(ClockTable.AHEAD) > 0) {
            throw new CannotStart("the kept data has already reached " + reached
                    + " in a rehearsal, and real time is earlier. Start with HOODKEEPER_CLOCK at that time or later,"
                    + " or choose a new folder with --hoodkeeper.data-dir=FOLDER.");
        }
        waitOut(early);
    }

    /** After a crash the kept bound lies some seconds ahead of real time: they pass sooner than a person could act. */
    private static void waitOut(Duration early) {
        try {
            Thread.sleep(Math.max(0, early.toMillis()));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new CannotStart("the start was interrupted.");
        }
    }
}
