package org.hoodkeeper.database;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import javax.sql.DataSource;
import org.springframework.jdbc.datasource.DriverManagerDataSource;

/** The way into a running service's database for whoever may only read it, beside the service. */
public final class ReadingRole {

    private static final int PORT_LINE = 3;

    private ReadingRole() {}

    /**
     * @param environment {@code HOODKEEPER_DATABASE_URL} (JDBC), {@code HOODKEEPER_VERIFIER} (its usual name when absent) and
     *     {@code HOODKEEPER_VERIFIER_PASSWORD}; without an address {@code HOODKEEPER_DATA_DIR}, the data folder of a service
     *     that brings its own database ({@code data} when absent)
     * @throws CannotStart when no running database can be found in the data folder
     */
    public static DataSource of(Map<String, String> environment) {
        String url = environment.getOrDefault("HOODKEEPER_DATABASE_URL", "");
        if (!url.isBlank()) {
            return new DriverManagerDataSource(
                    url,
                    environment.getOrDefault("HOODKEEPER_VERIFIER", Database.VERIFIER),
                    environment.getOrDefault("HOODKEEPER_VERIFIER_PASSWORD", ""));
        }
        Path folder = Path.of(environment.getOrDefault("HOODKEEPER_DATA_DIR", "data"));
        try {
            List<String> running =
                    Files.readAllLines(folder.resolve("postgresql").resolve("postmaster.pid"));
            Passwords passwords = Passwords.of(folder.resolve("passwords.properties"), Database.VERIFIER);
            return new DriverManagerDataSource(
                    "jdbc:postgresql://127.0.0.1:" + running.get(PORT_LINE).strip() + "/hoodkeeper",
                    Database.VERIFIER,
                    passwords.of(Database.VERIFIER));
        } catch (IOException | IndexOutOfBoundsException notThere) {
            throw new CannotStart("no running database was found in the data folder " + folder.toAbsolutePath()
                    + ". Set HOODKEEPER_DATA_DIR, or HOODKEEPER_DATABASE_URL and HOODKEEPER_VERIFIER_PASSWORD.");
        }
    }
}
