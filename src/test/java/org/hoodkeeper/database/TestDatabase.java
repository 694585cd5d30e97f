package org.hoodkeeper.database;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.HashMap;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Stream;
import org.testcontainers.postgresql.PostgreSQLContainer;

/**
 * One PostgreSQL per test run, shared by every context, with the service's three roles. {@code HOODKEEPER_TEST_DATABASE}
 * (environment or system property) says where it comes from: {@code embedded} (the default), {@code containers}, or the
 * JDBC address of a superuser, {@code jdbc:postgresql://127.0.0.1:5432/postgres?user=…&password=…}.
 */
public final class TestDatabase {

    private static final String SETTING = "HOODKEEPER_TEST_DATABASE";
    private static final String PARTITIONED = "HOODKEEPER_TEST_PARTITIONED";
    private static final String PASSWORD = "only-for-tests";
    private static final Map<String, Database> BY_NAME = new HashMap<>();

    private TestDatabase() {}

    /** Signs in as the role that owns the tables: past no row security, but free to create tables for a test. */
    public static Connection asOwner() throws SQLException {
        return shared().owner().connect();
    }

    /** Signs in as the service does. */
    public static Connection asApp() throws SQLException {
        return shared().app().connect();
    }

    /** Signs in as somebody past every grant and row security: sees what a copy of the whole database would hold. */
    public static Connection asSuperuser() throws SQLException {
        Login there = Server.SUPERUSER;
        return new Login(shared().app().url(), there.user(), there.password()).connect();
    }

    /** Signs in as the role that may only read. */
    public static Connection asVerifier() throws SQLException {
        return new Login(shared().app().url(), Database.VERIFIER, PASSWORD).connect();
    }

    /**
     * Whether the tables of the sites are partitioned by hash of the site: {@code HOODKEEPER_TEST_PARTITIONED=hash}, environment
     * or system property. PostgreSQL 17 or newer.
     */
    static boolean isPartitioned() {
        return "hash".equals(System.getProperty(PARTITIONED, System.getenv().getOrDefault(PARTITIONED, "")));
    }

    static Database shared() {
        return named("hoodkeeper_" + ProcessHandle.current().pid());
    }

    /** An empty database of its own, with the roles and without tables, for a test that must not share. */
    static Database empty() {
        return named("hoodkeeper_" + UUID.randomUUID().toString().replace('-', '_'));
    }

    /** Arguments that start the service on an empty database of its own and on a free port. */
    public static String[] emptyAsArguments() {
        Database database = empty();
        return new String[] {
            "--server.port=0",
            "--spring.datasource.url=" + database.app().url(),
            "--spring.datasource.username=" + database.app().user(),
            "--spring.datasource.password=" + database.app().password(),
            "--spring.flyway.user=" + database.owner().user(),
            "--spring.flyway.password=" + database.owner().password()
        };
    }

    /** A role that may do everything. */
    static Login superuser() {
        return Server.SUPERUSER;
    }

    private static synchronized Database named(String name) {
        return BY_NAME.computeIfAbsent(name, TestDatabase::create);
    }

    private static Database create(String name) {
        Login there = Server.SUPERUSER;
        Login here = new Login(
                there.url().replaceFirst("/[^/?]*(\\?|$)", "/" + name + "$1"), there.user(), there.password());
        try {
            try (Connection connection = there.connect();
                    Statement statement = connection.createStatement()) {
                statement.execute("create database " + name);
            }
            try (Connection connection = here.connect()) {
                DatabaseRoles.create(connection, PASSWORD, PASSWORD, PASSWORD);
            }
        } catch (SQLException e) {
            throw new IllegalStateException("no test database at " + there, e);
        }
        Runtime.getRuntime().addShutdownHook(new Thread(() -> drop(there, name)));
        return new Database(
                Database.Kind.EXTERNAL,
                Database.Users.SEPARATE,
                new Login(here.url(), Database.OWNER, PASSWORD),
                new Login(here.url(), Database.APP, PASSWORD),
                Database.VERIFIER,
                Database.ERASER);
    }

    /** Only a server that outlives the tests needs it. */
    private static void drop(Login superuser, String name) {
        if (!Server.LASTS) {
            return;
        }
        try (Connection connection = superuser.connect();
                Statement statement = connection.createStatement()) {
            statement.execute("drop database if exists " + name + " with (force)");
        } catch (SQLException e) {
            System.err.println("could not drop " + name + ": " + e.getMessage());
        }
    }

    private static final class Server {

        /** A measurement of durable writes needs it on. */
        static final String FSYNC = System.getenv().getOrDefault("HOODKEEPER_TEST_FSYNC", "off");

        static final String KIND = kind();
        static final boolean LASTS = KIND.startsWith("jdbc:");
        static final Login SUPERUSER = superuser();

        private static String kind() {
            String property = System.getProperty(SETTING, "");
            String environment = System.getenv().getOrDefault(SETTING, "");
            return Stream.of(property, environment, "embedded")
                    .filter(value -> !value.isBlank())
                    .findFirst()
                    .orElseThrow();
        }

        private static Login superuser() {
            if (LASTS) {
                return fromUrl(KIND);
            }
            return switch (KIND) {
                case "containers" -> container();
                case "embedded" -> embedded();
                default -> throw new IllegalArgumentException(SETTING + "=" + KIND);
            };
        }

        private static Login fromUrl(String url) {
            Map<String, String> parameters = new HashMap<>();
            for (String parameter : url.substring(url.indexOf('?') + 1).split("&")) {
                String[] parts = parameter.split("=", 2);
                parameters.put(parts[0], parts[1]);
            }
            return new Login(
                    url.substring(0, url.indexOf('?')),
                    parameters.get("user"),
                    parameters.getOrDefault("password", ""));
        }

        @SuppressWarnings("resource")
        private static Login container() {
            PostgreSQLContainer container = new PostgreSQLContainer("postgres:18");
            container.start();
            Runtime.getRuntime().addShutdownHook(new Thread(container::stop));
            return new Login(
                    container.getJdbcUrl().replaceFirst("\\?.*", ""), container.getUsername(), container.getPassword());
        }

        private static Login embedded() {
            try {
                Path folder = Files.createTempDirectory("hoodkeeper-test");
                EmbeddedDatabase database =
                        EmbeddedDatabase.start(folder, 0, Map.of("fsync", FSYNC, "max_connections", "200"));
                Runtime.getRuntime().addShutdownHook(new Thread(() -> {
                    database.destroy();
                    delete(folder);
                }));
                return database.superuser();
            } catch (IOException e) {
                throw new IllegalStateException(e);
            }
        }

        private static void delete(Path folder) {
            try {
                org.springframework.util.FileSystemUtils.deleteRecursively(folder);
            } catch (IOException e) {
                System.err.println("could not delete " + folder);
            }
        }
    }
}
