package org.hoodkeeper.database;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import org.jspecify.annotations.Nullable;
import org.postgresql.core.Utils;

/**
 * Creates the four roles in the connected database by the same script that an operator runs by hand,
 * {@code ops/database-roles.sql}. Safe to repeat; sets the passwords anew.
 */
public final class DatabaseRoles {

    private static final String SCRIPT = "/ops/database-roles.sql";

    private DatabaseRoles() {}

    /** @param superuser connected to the service's database, not to {@code postgres} */
    static void create(Connection superuser, String ownerPassword, String appPassword, String verifierPassword)
            throws SQLException {
        String sql = script().replace(":'owner_password'", literal(ownerPassword))
                .replace(":'app_password'", literal(appPassword))
                .replace(":'verifier_password'", literal(verifierPassword));
        try (Statement statement = superuser.createStatement()) {
            statement.execute(sql);
        }
    }

    /**
     * Creates the roles on a server of your own; a container setup runs this once before the service starts. Reads
     * {@code HOODKEEPER_DATABASE_URL} (JDBC), {@code HOODKEEPER_SUPERUSER}, {@code HOODKEEPER_SUPERUSER_PASSWORD},
     * {@code HOODKEEPER_OWNER_PASSWORD}, {@code HOODKEEPER_APP_PASSWORD} and {@code HOODKEEPER_VERIFIER_PASSWORD} from
     * the environment, so that no password stands in a process list.
     */
    public static void main(String[] arguments) throws SQLException {
        Login superuser = new Login(
                required("HOODKEEPER_DATABASE_URL"),
                required("HOODKEEPER_SUPERUSER"),
                required("HOODKEEPER_SUPERUSER_PASSWORD"));
        try (Connection connection = superuser.connect()) {
            create(
                    connection,
                    required("HOODKEEPER_OWNER_PASSWORD"),
                    required("HOODKEEPER_APP_PASSWORD"),
                    required("HOODKEEPER_VERIFIER_PASSWORD"));
        }
        System.out.println("Roles are in place at " + superuser.url());
    }

    private static String required(String variable) {
        @Nullable String value = System.getenv(variable);
        if (value == null || value.isBlank()) {
            throw new IllegalArgumentException("set " + variable);
        }
        return value;
    }

    private static String literal(String text) throws SQLException {
        return Utils.escapeLiteral(new StringBuilder("'"), text, true)
                .append('\'')
                .toString();
    }

    private static String script() {
        try (InputStream in = DatabaseRoles.class.getResourceAsStream(SCRIPT)) {
            if (in == null) {
                throw new IllegalStateException(SCRIPT + " is missing from the program");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
