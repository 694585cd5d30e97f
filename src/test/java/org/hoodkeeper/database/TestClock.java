package org.hoodkeeper.database;

import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.util.Collections;
import java.util.Set;
import java.util.WeakHashMap;

/**
 * Sets the time of the service and of the test database together, forward or back, for every context of this test run.
 * Time runs on from there. {@link #reset()} afterwards.
 */
public final class TestClock {

    private static final Set<ServiceClock> CLOCKS =
            Collections.synchronizedSet(Collections.newSetFromMap(new WeakHashMap<>()));

    private TestClock() {}

    public static void set(Instant now) {
        try {
            shift(new ClockTable(TestDatabase.shared().owner()).setTo(now));
        } catch (SQLException e) {
            throw new IllegalStateException(e);
        }
    }

    /** Back to real time. */
    public static void reset() {
        try {
            shift(new ClockTable(TestDatabase.shared().owner()).followMachine());
        } catch (SQLException e) {
            throw new IllegalStateException(e);
        }
    }

    static void follow(ServiceClock clock) {
        CLOCKS.add(clock);
    }

    private static void shift(Duration offset) {
        synchronized (CLOCKS) {
            CLOCKS.forEach(clock -> clock.shiftTo(offset));
        }
    }
}
