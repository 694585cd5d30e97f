package org.hoodkeeper.database;

import java.sql.SQLException;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Keeps the bound on service time ahead while the embedded database runs, so that even a killed service leaves one. */
final class ReachedTime implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(ReachedTime.class);

    private final ClockTable table;
    private final ScheduledExecutorService beat = Executors.newSingleThreadScheduledExecutor(work -> {
        Thread thread = new Thread(work, "reached-time");
        thread.setDaemon(true);
        return thread;
    });

    private ReachedTime(ClockTable table) {
        this.table = table;
    }

    /** Keeps the first bound before it returns, and from then on twice as often as needed. */
    static ReachedTime keep(ClockTable table) throws SQLException {
        table.keepBoundAhead();
        ReachedTime reached = new ReachedTime(table);
        long every = ClockTable.AHEAD.toMillis() / 2;
        reached.beat.scheduleAtFixedRate(reached::keepAgain, every, every, TimeUnit.MILLISECONDS);
        return reached;
    }

    /** Where the service does not run the server, it does not move the clock either: nothing to keep. */
    static ReachedTime keepNothing(ClockTable table) {
        return new ReachedTime(table);
    }

    private void keepAgain() {
        try {
            table.keepBoundAhead();
        } catch (SQLException e) {
            LOG.warn("could not keep the time reached; trying again", e);
        }
    }

    /** Returns when no beat runs any more, so that the exact bound written at the stop stays the last. */
    @Override
    public void close() throws InterruptedException {
        beat.shutdown();
        beat.awaitTermination(ClockTable.AHEAD.toMillis(), TimeUnit.MILLISECONDS);
    }
}
