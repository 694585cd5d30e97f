package org.hoodkeeper.database;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Map;
import javax.sql.DataSource;
import org.springframework.jdbc.datasource.DriverManagerDataSource;

/** The very PostgreSQL that the service brings along, with its settings, run by the benchmark so that both can use it. */
public final class BenchDatabase implements AutoCloseable {

    private final EmbeddedDatabase server;

    private BenchDatabase(EmbeddedDatabase server) {
        this.server = server;
    }

    public static BenchDatabase start(Path folder) {
        return new BenchDatabase(EmbeddedDatabase.start(folder, 0, Map.of("max_connections", "120")));
    }

    /** Past foreign keys and row security: for the generator, and for looking at the server. */
    public Connection superuser() throws SQLException {
        Login login = server.superuser();
        Connection connection = new Login(server.database().app().url(), login.user(), login.password()).connect();
        try (Statement statement = connection.createStatement()) {
            statement.execute("set session_replication_role = replica");
        }
        return connection;
    }

    /** As the service signs in. */
    public Connection app() throws SQLException {
        return server.database().app().connect();
    }

    /** The same, for those who take connections themselves. */
    public DataSource appSource() {
        Login login = server.database().app();
        return new DriverManagerDataSource(login.url(), login.user(), login.password());
    }

    public Connection owner() throws SQLException {
        return server.database().owner().connect();
    }

    /** Arguments for a service that shall run on it. */
    public List<String> arguments() {
        Database database = server.database();
        return List.of(
                "--spring.datasource.url=" + database.app().url(),
                "--spring.datasource.username=" + database.app().user(),
                "--spring.datasource.password=" + database.app().password(),
                "--spring.flyway.user=" + database.owner().user(),
                "--spring.flyway.password=" + database.owner().password());
    }

    @Override
    public void close() {
        server.destroy();
    }
}
