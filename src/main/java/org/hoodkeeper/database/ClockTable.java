package org.hoodkeeper.database;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Optional;

/**
 * The row that {@code service_now()} reads. Written as the owner, because the service's own role cannot move time. Keeps
 * a bound that no record's time has passed, so that kept data never sees the clock go back.
 */
final class ClockTable {

    /** How far the kept bound runs ahead of service time while the service runs; a crash leaves it that much too late. */
    static final Duration AHEAD = Duration.ofSeconds(10);

    private final Login owner;

    ClockTable(Login owner) {
        this.owner = owner;
    }

    /** The latest service time that the kept data may hold; empty on a new database. */
    Optional<Instant> reached() throws SQLException {
        try (Connection connection = owner.connect();
                Statement statement = connection.createStatement()) {
            try (ResultSet table = statement.executeQuery("select to_regclass('public.service_clock') is not null")) {
                table.next();
                if (!table.getBoolean(1)) {
                    return Optional.empty();
                }
            }
            try (ResultSet row = statement.executeQuery("select reached from service_clock")) {
                row.next();
                return Optional.ofNullable(row.getObject(1, OffsetDateTime.class))
                        .map(OffsetDateTime::toInstant);
            }
        }
    }

    Duration offset() throws SQLException {
        try (Connection connection = owner.connect();
                Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery("select offset_micros from service_clock")) {
            row.next();
            return Duration.of(row.getLong(1), ChronoUnit.MICROS);
        }
    }

    /** Lets service time run with the machine's. */
    Duration followMachine() throws SQLException {
        execute("update service_clock set offset_micros = 0");
        return Duration.ZERO;
    }

    /** Lets service time stand at {@code start} now and run on from there, whatever it was. */
    Duration setTo(Instant start) throws SQLException {
        return shift("true", start).orElseThrow();
    }

    /** Lets service time jump to {@code to}; empty, and nothing changed, when it has passed that already. */
    Optional<Duration> advanceTo(Instant to) throws SQLException {
        return shift("service_now() <= asked.at", to);
    }

    /** Keeps the bound ahead of service time. */
    void keepBoundAhead() throws SQLException {
        execute("update service_clock set reached = greatest(reached, service_now() + interval '" + AHEAD.toSeconds()
                + " seconds')");
    }

    /** Keeps exactly what was reached, at an orderly stop, when no record can follow. */
    void keepBoundExactly() throws SQLException {
        execute("update service_clock set reached = service_now()");
    }

    private Optional<Duration> shift(String condition, Instant to) throws SQLException {
        try (Connection connection = owner.connect();
                PreparedStatement statement = connection.prepareStatement("""
                        update service_clock
                           set offset_micros = round(extract(epoch from asked.at - clock_timestamp()) * 1000000)
                          from (select ?::timestamptz as at) asked
                         where %s
                        returning offset_micros
                        """.formatted(condition))) {
            statement.setObject(1, to.atOffset(ZoneOffset.UTC));
            try (ResultSet row = statement.executeQuery()) {
                return row.next() ? Optional.of(Duration.of(row.getLong(1), ChronoUnit.MICROS)) : Optional.empty();
            }
        }
    }

    private void execute(String sql) throws SQLException {
        try (Connection connection = owner.connect();
                Statement statement = connection.createStatement()) {
            statement.execute(sql);
        }
    }
}
