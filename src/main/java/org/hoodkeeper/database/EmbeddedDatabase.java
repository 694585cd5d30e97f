package org.hoodkeeper.database;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.DisposableBean;

/**
 * A real PostgreSQL that the service starts and stops itself, for a machine with nothing but a JDK. Listens on loopback
 * only, asks each role for its password, and keeps what was committed even when the machine loses power.
 */
final class EmbeddedDatabase implements DisposableBean {

    private static final Logger LOG = LoggerFactory.getLogger(EmbeddedDatabase.class);
    private static final String SUPERUSER = "postgres";
    private static final String NAME = "hoodkeeper";
    /** A start after a crash replays up to {@code max_wal_size}. */
    private static final Duration START_PATIENCE = Duration.ofMinutes(3);

    private final DataFolder folder;
    private final EmbeddedPostgres server;
    private final Login superuser;
    private final Database database;

    private EmbeddedDatabase(DataFolder folder, EmbeddedPostgres server, Login superuser, Database database) {
        this.folder = folder;
        this.server = server;
        this.superuser = superuser;
        this.database = database;
    }

    /**
     * @param port a free one is chosen for 0
     * @param otherSettings server settings that win over the usual ones
     * @throws CannotStart when the folder is taken, the port is taken, or the server does not come up
     */
    static EmbeddedDatabase start(Path dataFolder, int port, Map<String, String> otherSettings) {
        DataFolder folder = DataFolder.take(dataFolder.toAbsolutePath().normalize());
        try {
            LeftOver.stop(folder.cluster());
            refuseTakenPort(port);
            Passwords passwords =
                    Passwords.of(folder.passwords(), SUPERUSER, Database.OWNER, Database.APP, Database.VERIFIER);
            EmbeddedPostgres server = startServer(folder, port, otherSettings, passwords.of(SUPERUSER));
            Login superuser = login(server.getPort(), "postgres", SUPERUSER, passwords);
            return new EmbeddedDatabase(folder, server, superuser, prepare(superuser, server.getPort(), passwords));
        } catch (IOException | SQLException | IllegalStateException e) {
            release(folder);
            throw new CannotStart("the database in " + folder.path() + " did not start (" + e.getMessage()
                    + "). Its own words are in " + folder.cluster().resolve("log") + ".");
        } catch (CannotStart e) {
            release(folder);
            throw e;
        }
    }

    Database database() {
        return database;
    }

    /** For maintenance of the server itself; the service never signs in with it once it runs. */
    Login superuser() {
        return superuser;
    }

    @Override
    public void destroy() {
        Optional<ProcessHandle> process = LeftOver.serverOf(folder.cluster());
        try {
            keepTimeReached();
            server.close();
            // the stop command waits a few seconds only, but a last checkpoint may take longer
            if (!process.map(LeftOver::await).orElse(true)) {
                LOG.error("the database process {} does not end", process.map(ProcessHandle::pid));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } finally {
            release(folder);
        }
    }

    /** Everything that writes has ended by now, so this is the last word. */
    private void keepTimeReached() {
        ClockTable table = new ClockTable(database.owner());
        try {
            if (table.reached().isPresent()) {
                table.keepBoundExactly();
            }
        } catch (SQLException e) {
            LOG.warn("the time reached was not kept exactly; the next start sees a bound some seconds later", e);
        }
    }

    private static void release(DataFolder folder) {
        try {
            folder.close();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void refuseTakenPort(int port) {
        if (port == 0) {
            return;
        }
        try (ServerSocket probe = new ServerSocket(port, 1, InetAddress.getLoopbackAddress())) {
            LOG.debug("port {} is free", probe.getLocalPort());
        } catch (IOException e) {
            throw new CannotStart("the database's port " + port + " is in use."
                    + " Choose another with --hoodkeeper.database-port=PORT, or 0 for any free one.");
        }
    }

    private static EmbeddedPostgres startServer(
            DataFolder folder, int port, Map<String, String> otherSettings, String password) throws IOException {
        Path passwordFile = Files.createTempFile(folder.path(), "setup", ".txt");
        try {
            Files.writeString(passwordFile, password);
            EmbeddedPostgres.Builder builder = EmbeddedPostgres.builder()
                    .setOverrideWorkingDirectory(folder.program().toFile())
                    .setDataDirectory(folder.cluster())
                    .setCleanDataDirectory(false)
                    // Spring stops the service first and the database last: no hook of the library's own beside it
                    .setRegisterShutdownHook(false)
                    .setPGStartupWait(START_PATIENCE)
                    .setPort(port)
                    .setConnectConfig("password", password)
                    .setDataDirectoryCustomizer(cluster -> closeToOthers(folder, cluster));
            initialSettings(passwordFile).forEach(builder::setLocaleConfig);
            Map<String, String> settings = serverSettings();
            settings.putAll(otherSettings);
            settings.forEach(builder::setServerConfig);
            return builder.start();
        } finally {
            Files.delete(passwordFile);
        }
    }

    /** Options of the cluster's creation: sorts by code point and knows upper and lower case in every script. */
    private static Map<String, String> initialSettings(Path passwordFile) {
        return Map.of(
                "locale", "C",
                "locale-provider", "builtin",
                "builtin-locale", "C.UTF-8",
                "pwfile", passwordFile.toString());
    }

    /** For two cores and some gigabytes of memory, shared with the service itself. */
    private static Map<String, String> serverSettings() {
        Map<String, String> settings = new LinkedHashMap<>();
        settings.put("listen_addresses", "127.0.0.1");
        settings.put("unix_socket_directories", "");
        settings.put("max_connections", "60");
        // the library turns both off; a record that was confirmed must survive a loss of power
        settings.put("fsync", "on");
        settings.put("synchronous_commit", "on");
        settings.put("shared_buffers", "256MB");
        settings.put("effective_cache_size", "1GB");
        settings.put("work_mem", "16MB");
        settings.put("maintenance_work_mem", "128MB");
        settings.put("max_wal_size", "2GB");
        settings.put("checkpoint_timeout", "15min");
        settings.put("max_parallel_workers_per_gather", "1");
        settings.put("random_page_cost", "1.1");
        settings.put("jit", "off");
        // a server left by a killed service notices within a second that its clients are gone
        settings.put("client_connection_check_interval", "1s");
        settings.put("logging_collector", "on");
        settings.put("log_filename", "postgresql-%a.log");
        settings.put("log_truncate_on_rotation", "on");
        settings.put("log_rotation_age", "1d");
        settings.put("log_rotation_size", "0");
        return settings;
    }

    /**
     * The library opens the cluster to everybody on this machine, and lets everybody replace the program; here each role
     * must give its password, and the program is the owner's alone.
     */
    private static void closeToOthers(DataFolder folder, File cluster) {
        try {
            // one process unpacks the program once only, so that of a second database lies in the first one's folder
            if (Files.isDirectory(folder.program())) {
                DataFolder.closeToOthers(folder.program());
            }
            Files.writeString(
                    cluster.toPath().resolve("pg_hba.conf"),
                    "# written at each start\nhost all all 127.0.0.1/32 scram-sha-256\n");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Database prepare(Login superuser, int port, Passwords passwords) throws SQLException {
        try (Connection connection = superuser.connect();
                Statement statement = connection.createStatement()) {
            if (!exists(statement)) {
                statement.execute("create database " + NAME);
            }
        }
        try (Connection connection = login(port, NAME, SUPERUSER, passwords).connect()) {
            DatabaseRoles.create(
                    connection,
                    passwords.of(Database.OWNER),
                    passwords.of(Database.APP),
                    passwords.of(Database.VERIFIER));
        }
        return new Database(
                Database.Kind.EMBEDDED,
                Database.Users.SEPARATE,
                login(port, NAME, Database.OWNER, passwords),
                login(port, NAME, Database.APP, passwords),
                Database.VERIFIER,
                Database.ERASER);
    }

    private static boolean exists(Statement statement) throws SQLException {
        try (ResultSet found = statement.executeQuery("select 1 from pg_database where datname = '" + NAME + "'")) {
            return found.next();
        }
    }

    private static Login login(int port, String database, String role, Passwords passwords) {
        return new Login("jdbc:postgresql://127.0.0.1:" + port + "/" + database, role, passwords.of(role));
    }
}
