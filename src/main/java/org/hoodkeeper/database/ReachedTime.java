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

    ReachedTime(ClockTable table) {
        this.table = table;
        long every = ClockTable.AHEAD.toMillis() / 2;
        beat.scheduleAtFixedRate(this::keep, 0, every, TimeUnit.MILLISECONDS);
    }

    private void keep() {
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
