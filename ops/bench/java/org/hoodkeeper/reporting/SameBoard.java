package org.hoodkeeper.reporting;

import java.sql.Array;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.sql.Timestamp;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.kernel.SiteId;

/**
 * The deciding rows of a whole site at a moment as known then, corrections and knowledge applied: the service's own statements
 * by plain JDBC, every column of every row read, nothing made of them and nothing judged.
 */
public final class SameBoard {


    private final Connection connection;
    private final SiteId site;
    private final List<UUID> workers;
    private final List<UUID> sets;
    private final List<UUID> tasks;

    public SameBoard(
            Connection connection,
            SiteId site,
            List<UUID> workers,
            List<UUID> sets,
            List<UUID> tasks)
            throws SQLException {
        this.connection = connection;
        this.site = site;
        this.workers = workers;
        this.sets = sets;
        this.tasks = tasks;
        connection.setAutoCommit(false);
    }

    /** @return how many rows were read */
    public int read(Instant moment) throws SQLException {
        try (Statement begin = connection.createStatement()) {
            begin.execute("set transaction isolation level repeatable read;"
                    + " set local plan_cache_mode = force_generic_plan;"
                    + " select set_config('hoodkeeper.site', '" + site.value() + "', true)");
        }
        int rows = run(
                Deciding.SHARED, moment, Map.of("tasks", tasks, "sites", List.of(site.value())));
        for (int from = 0; from < workers.size(); from += Rounds.AT_A_TIME) {
            int until = Math.min(workers.size(), from + Rounds.AT_A_TIME);
            rows += run(
                    Deciding.PART,
                    moment,
                    Map.of("workers", workers.subList(from, until), "sets", sets.subList(from, until)));
        }
        connection.commit();
        return rows;
    }

    private int run(Reading.Statement what, Instant moment, Map<String, List<UUID>> ids) throws SQLException {
        try (PreparedStatement statement = connection.prepareStatement(what.ahead())) {
            statement.setObject(1, site.value());
            statement.setTimestamp(2, Timestamp.from(moment));
            statement.setTimestamp(3, Timestamp.from(Instant.parse("9999-01-01T00:00:00Z")));
            statement.setTimestamp(4, Timestamp.from(moment));
            for (int i = 0; i < what.ids().size(); i++) {
                UUID[] some = ids.get(what.ids().get(i)).toArray(new UUID[0]);
                Array array = connection.createArrayOf("uuid", some);
                statement.setArray(5 + i, array);
            }
            int rows = 0;
            try (ResultSet row = statement.executeQuery()) {
                while (row.next()) {
                    for (int i = 1; i <= 10; i++) {
                        row.getObject(i);
                    }
                    rows++;
                }
            }
            return rows;
        }
    }
}
