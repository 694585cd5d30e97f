package org.hoodkeeper.database;

import java.sql.SQLException;
import java.time.Instant;
import org.hoodkeeper.kernel.Refused;
import org.springframework.dao.DataAccessResourceFailureException;

/**
 * Trying things in time: the service's clock starts where it was told to and can be moved forward, never back, because
 * what is on record cannot become untold. On the embedded database only.
 */
public final class Rehearsal {

    private final ServiceClock clock;
    private final ClockTable table;
    private final boolean on;

    Rehearsal(ServiceClock clock, ClockTable table, boolean on) {
        this.clock = clock;
        this.table = table;
        this.on = on;
    }

    /** Whether service time is not real time; then every page says so. */
    public boolean isOn() {
        return on;
    }

    /**
     * Moves service time forward for the database and for the service.
     *
     * @throws Refused {@code rehearsal.off} when real time runs; {@code rehearsal.back} with the asked and the present
     *     instant when the asked one has passed
     */
    public void moveTo(Instant to) {
        if (!on) {
            throw new Refused("rehearsal.off");
        }
        try {
            clock.shiftTo(table.advanceTo(to).orElseThrow(() -> new Refused("rehearsal.back", to, clock.instant())));
            table.keepBoundAhead();
        } catch (SQLException e) {
            throw new DataAccessResourceFailureException("could not move the clock", e);
        }
    }
}
