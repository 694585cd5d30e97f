package org.hoodkeeper.ledger;

import java.sql.Connection;
import java.sql.SQLException;
import org.hoodkeeper.kernel.SiteId;
import org.springframework.jdbc.datasource.SingleConnectionDataSource;

/** The service's own check of a chain, on a connection of the benchmark's. */
public final class BenchChain {

    private BenchChain() {}

    public static Chain.Checked check(Connection connection, SiteId site) throws SQLException {
        connection.setAutoCommit(false);
        return new Chain(new SingleConnectionDataSource(connection, true)).check(site);
    }
}
