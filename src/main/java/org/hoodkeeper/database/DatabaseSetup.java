package org.hoodkeeper.database;

import java.sql.SQLException;
import java.time.Duration;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.boot.autoconfigure.AutoConfiguration;
import org.springframework.boot.autoconfigure.condition.ConditionalOnMissingBean;
import org.springframework.boot.hibernate.autoconfigure.HibernateJpaAutoConfiguration;
import org.springframework.boot.jdbc.autoconfigure.DataSourceTransactionManagerAutoConfiguration;
import org.springframework.boot.sql.init.dependency.DependsOnDatabaseInitialization;
import org.springframework.boot.transaction.autoconfigure.TransactionManagerCustomizers;
import org.springframework.context.annotation.Bean;
import org.springframework.core.env.Environment;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.TransactionManager;

/**
 * The clock and the transactions of the whole service. An auto-configuration, not a scanned one, so that a test of one
 * module, which loads no other module's beans, still has both.
 */
@AutoConfiguration(before = {HibernateJpaAutoConfiguration.class, DataSourceTransactionManagerAutoConfiguration.class})
class DatabaseSetup {

    @Bean
    @ConditionalOnMissingBean(TransactionManager.class)
    SiteTransactionManager transactionManager(ObjectProvider<TransactionManagerCustomizers> customizers) {
        SiteTransactionManager manager = new SiteTransactionManager();
        customizers.ifAvailable(each -> each.customize(manager));
        return manager;
    }

    @Bean
    ClockTable clockTable(Database database) {
        return new ClockTable(database.owner());
    }

    /** The one clock. Made after the migrations, because it agrees with a row that they lay. */
    @Bean
    @DependsOnDatabaseInitialization
    ServiceClock clock(Database database, StartTime startTime, ClockTable table) throws SQLException {
        return new ServiceClock(offset(database, startTime, table));
    }

    private static Duration offset(Database database, StartTime startTime, ClockTable table) throws SQLException {
        if (database.kind() == Database.Kind.EXTERNAL) {
            // never moved by the service; one that is moved came with data from a rehearsal
            return table.offset();
        }
        return startTime.rehearsal() == null ? table.followMachine() : table.setTo(startTime.rehearsal());
    }

    /** Takes the clock so that the clock is set first. */
    @Bean
    ReachedTime reachedTime(ServiceClock clock, Database database, ClockTable table) throws SQLException {
        return database.kind() == Database.Kind.EMBEDDED ? ReachedTime.keep(table) : ReachedTime.keepNothing(table);
    }

    @Bean
    Rehearsal rehearsal(ServiceClock clock, StartTime startTime, ClockTable table) {
        return new Rehearsal(clock, table, startTime.isRehearsal());
    }

    @Bean
    StartLines startLines(
            Environment environment,
            Rehearsal rehearsal,
            ServiceClock clock,
            Database database,
            ObjectProvider<StartNotice> notices) {
        return new StartLines(environment, rehearsal, clock, database, notices);
    }

    @Bean
    DatabaseHealth databaseRolesHealthIndicator(Database database) {
        return new DatabaseHealth(database);
    }

    @Bean
    ClockHealth serviceClockHealthIndicator(ServiceClock clock, JdbcClient jdbc) {
        return new ClockHealth(clock, jdbc);
    }
}
