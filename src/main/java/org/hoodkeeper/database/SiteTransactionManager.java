package org.hoodkeeper.database;

import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import javax.sql.DataSource;
import org.hoodkeeper.kernel.SiteId;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.datasource.DataSourceUtils;
import org.springframework.orm.jpa.JpaTransactionManager;
import org.springframework.transaction.CannotCreateTransactionException;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.DelegatingTransactionDefinition;

/** Tells the database, at the begin of each transaction, for which site it may show rows. */
class SiteTransactionManager extends JpaTransactionManager {

    /** Local to the transaction: a connection goes back to the pool without it. */
    private static final String BIND = "select set_config('hoodkeeper.site', '%s', true)";

    /** A view's statements are the same for each question and large: planning one anew takes longer than running it. */
    private static final String ONE_STATE =
            "set transaction isolation level repeatable read; set local plan_cache_mode = force_generic_plan";

    @Override
    protected void doBegin(Object transaction, TransactionDefinition definition) {
        boolean oneState = definition.getIsolationLevel() == TransactionDefinition.ISOLATION_REPEATABLE_READ;
        super.doBegin(transaction, oneState ? new UsualIsolation(definition) : definition);
        SiteId site = SiteBinding.current();
        if (site == null && !oneState) {
            return;
        }
        String bind = site == null ? "" : BIND.formatted(site.value());
        try {
            tell(oneState ? ONE_STATE + (bind.isEmpty() ? "" : ";" + bind) : bind);
        } catch (SQLException e) {
            doCleanupAfterCompletion(transaction);
            throw new CannotCreateTransactionException("could not bind site " + site, e);
        }
    }

    /**
     * Isolation and site in one message, in the transaction itself: asked of the connection, the isolation would cost three more
     * messages, to read, set and restore it.
     */
    private static final class UsualIsolation extends DelegatingTransactionDefinition {

        private UsualIsolation(TransactionDefinition definition) {
            super(definition);
        }

        @Override
        public int getIsolationLevel() {
            return ISOLATION_DEFAULT;
        }
    }

    private void tell(String what) throws SQLException {
        @Nullable DataSource dataSource = getDataSource();
        if (dataSource == null) {
            throw new IllegalStateException("JPA shares no data source with JDBC");
        }
        // the transaction's own connection, which JPA has just bound to this thread
        Connection connection = DataSourceUtils.getConnection(dataSource);
        try (Statement statement = connection.createStatement()) {
            statement.execute(what);
        } finally {
            DataSourceUtils.releaseConnection(connection, dataSource);
        }
    }
}
