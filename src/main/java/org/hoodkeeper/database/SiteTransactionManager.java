package org.hoodkeeper.database;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import javax.sql.DataSource;
import org.hoodkeeper.kernel.SiteId;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.datasource.DataSourceUtils;
import org.springframework.orm.jpa.JpaTransactionManager;
import org.springframework.transaction.CannotCreateTransactionException;
import org.springframework.transaction.TransactionDefinition;

/** Tells the database, at the begin of each transaction, for which site it may show rows. */
class SiteTransactionManager extends JpaTransactionManager {

    /** Local to the transaction: a connection goes back to the pool without it. */
    private static final String BIND = "select set_config('hoodkeeper.site', ?, true)";

    @Override
    protected void doBegin(Object transaction, TransactionDefinition definition) {
        super.doBegin(transaction, definition);
        SiteId site = SiteBinding.current();
        if (site == null) {
            return;
        }
        try {
            tell(site);
        } catch (SQLException e) {
            doCleanupAfterCompletion(transaction);
            throw new CannotCreateTransactionException("could not bind site " + site, e);
        }
    }

    private void tell(SiteId site) throws SQLException {
        @Nullable DataSource dataSource = getDataSource();
        if (dataSource == null) {
            throw new IllegalStateException("JPA shares no data source with JDBC");
        }
        // the transaction's own connection, which JPA has just bound to this thread
        Connection connection = DataSourceUtils.getConnection(dataSource);
        try (PreparedStatement statement = connection.prepareStatement(BIND)) {
            statement.setString(1, site.toString());
            statement.execute();
        } finally {
            DataSourceUtils.releaseConnection(connection, dataSource);
        }
    }
}
