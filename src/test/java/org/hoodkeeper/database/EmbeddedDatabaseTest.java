package org.hoodkeeper.database;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.BufferedReader;
import java.io.File;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.Hoodkeeper;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The database that the service brings with it, with real processes that are really killed. */
@Timeout(value = 3, unit = TimeUnit.MINUTES)
class EmbeddedDatabaseTest {

    @TempDir
    Path folder;

    private final List<Process> children = new ArrayList<>();

    @AfterEach
    void endChildren() {
        children.forEach(Process::destroyForcibly);
        LeftOver.stop(folder.resolve("postgresql"));
    }

    @Test
    void afterAKillTheNextStartTakesOverAndNothingIsLost() throws Exception {
        Process holder = holder();
        ProcessHandle server = LeftOver.serverOf(folder.resolve("postgresql")).orElseThrow();

        assertThat(permissions("program"))
                .as("nobody else replaces the program")
                .isEqualTo("rwx------");
        holder.destroyForcibly().waitFor();
        assertThat(server.isAlive()).as("the kill leaves the server behind").isTrue();

        EmbeddedDatabase next = EmbeddedDatabase.start(folder, 0, Map.of());
        try {
            assertThat(server.isAlive()).isFalse();
            assertThat(one(next.database().owner(), "select words from kept")).isEqualTo("before the kill");
        } finally {
            next.destroy();
        }
    }

    @Test
    void aSecondStartOnTheSameDataSaysSoAndEnds() throws Exception {
        holder();
        Process second = java(Hoodkeeper.class, "--hoodkeeper.data-dir=" + folder, "--server.port=0");
        assertThat(errors(second))
                .containsExactly("Hoodkeeper did not start: the data folder " + folder
                        + " is in use by another Hoodkeeper. Stop that one first, or choose another folder with"
                        + " --hoodkeeper.data-dir=FOLDER.");
        assertThat(second.waitFor()).isEqualTo(1);
    }

    @Test
    void anUnreadableClockStopsTheStart() throws Exception {
        Process start = java(Hoodkeeper.class, "--hoodkeeper.data-dir=" + folder, "--hoodkeeper.clock=tomorrow");
        assertThat(errors(start))
                .containsExactly("Hoodkeeper did not start: HOODKEEPER_CLOCK=tomorrow is not an instant. Give one with"
                        + " its offset, for example 2027-03-01T06:30:00Z.");
        assertThat(start.waitFor()).isEqualTo(1);
        assertThat(folder).isEmptyDirectory();
    }

    @Test
    void anOrderlyStopLeavesNoProcessAndAFreeFolder() throws Exception {
        EmbeddedDatabase database = EmbeddedDatabase.start(folder, 0, Map.of());
        ProcessHandle server = LeftOver.serverOf(folder.resolve("postgresql")).orElseThrow();
        database.destroy();
        assertThat(server.isAlive()).isFalse();
        EmbeddedDatabase.start(folder, 0, Map.of()).destroy();
    }

    @Test
    void keepsWhatWasCommittedListensOnLoopbackAndAsksForPasswords() throws Exception {
        EmbeddedDatabase database = EmbeddedDatabase.start(folder, 0, Map.of());
        try {
            Login app = database.database().app();
            assertThat(one(app, "show fsync")).isEqualTo("on");
            assertThat(one(app, "show synchronous_commit")).isEqualTo("on");
            assertThat(one(app, "show full_page_writes")).isEqualTo("on");
            assertThat(one(app, "show listen_addresses")).isEqualTo("127.0.0.1");
            assertThat(one(app, "show server_version")).isEqualTo("18.1");
            assertThat(one(app, "select current_user")).isEqualTo("hoodkeeper_app");
            assertThatThrownBy(() -> new Login(app.url(), "postgres", "").connect())
                    .isInstanceOf(SQLException.class)
                    .hasMessageContaining("password");
            assertThatThrownBy(() -> new Login(app.url(), app.user(), "guessed").connect())
                    .isInstanceOf(SQLException.class)
                    .hasMessageContaining("password authentication failed");
            assertThat(permissions("passwords.properties")).isEqualTo("rw-------");
            assertThat(permissions("postgresql")).isEqualTo("rwx------");
        } finally {
            database.destroy();
        }
    }

    @Test
    void aTakenPortIsNamed() throws IOException {
        try (ServerSocket taken = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            assertThatExceptionOfType(CannotStart.class)
                    .isThrownBy(() -> EmbeddedDatabase.start(folder, taken.getLocalPort(), Map.of()))
                    .withMessageContaining("port " + taken.getLocalPort() + " is in use");
        }
    }

    private String permissions(String name) throws IOException {
        return PosixFilePermissions.toString(Files.getPosixFilePermissions(folder.resolve(name)));
    }

    private Process holder() throws IOException {
        Process holder = java(Holder.class, folder.toString());
        BufferedReader words = holder.inputReader(StandardCharsets.UTF_8);
        for (String line = words.readLine(); line != null; line = words.readLine()) {
            if (line.equals(Holder.READY)) {
                return holder;
            }
        }
        throw new AssertionError("the holder ended early: " + errors(holder));
    }

    /** The real program without what the tests add to it, except for the holder itself. */
    private Process java(Class<?> main, String... arguments) throws IOException {
        String everything = System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
        String path = Stream.of(everything.split(File.pathSeparator))
                .filter(entry -> main == Holder.class || !entry.contains("test-classes"))
                .collect(Collectors.joining(File.pathSeparator));
        List<String> command = new ArrayList<>(
                List.of(Path.of(System.getProperty("java.home"), "bin", "java").toString(), main.getName()));
        command.addAll(List.of(arguments));
        ProcessBuilder builder = new ProcessBuilder(command);
        builder.environment().put("CLASSPATH", path);
        builder.environment().remove("SPRING_DATASOURCE_URL");
        Process process = builder.start();
        children.add(process);
        return process;
    }

    private static List<String> errors(Process process) throws IOException {
        try (BufferedReader reader = process.errorReader(StandardCharsets.UTF_8)) {
            return reader.lines().toList();
        }
    }

    private static String one(Login login, String sql) throws SQLException {
        try (Connection connection = login.connect();
                Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery(sql)) {
            row.next();
            return row.getString(1);
        }
    }
}
