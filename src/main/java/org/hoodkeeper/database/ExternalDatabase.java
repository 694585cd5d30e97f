package org.hoodkeeper.database;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import org.jspecify.annotations.Nullable;
import org.springframework.core.env.Environment;

/** A PostgreSQL that somebody else runs, given by {@code spring.datasource.url}. */
final class ExternalDatabase {

    private static final int OLDEST = 150_000;
    private static final String HOW =
            " Create the roles with ops/database-roles.sql, then set SPRING_DATASOURCE_USERNAME=hoodkeeper_app and"
                    + " SPRING_FLYWAY_USER=hoodkeeper_owner with their passwords.";
    private static final String ACCEPT =
            " To accept that on your own responsibility, start with --hoodkeeper.single-database-user=accept.";

    private ExternalDatabase() {}

    /** @throws CannotStart when it cannot be reached, is too old, or one role would do everything unaccepted */
    static Database from(Environment environment) {
        Login app = new Login(
                environment.getRequiredProperty("spring.datasource.url"),
                required(environment, "spring.datasource.username"),
                environment.getProperty("spring.datasource.password", ""));
        String ownerUser = environment.getProperty("spring.flyway.user", app.user());
        Login owner = new Login(
                environment.getProperty("spring.flyway.url", app.url()),
                ownerUser,
                environment.getProperty("spring.flyway.password", ownerUser.equals(app.user()) ? app.password() : ""));
        boolean accepted = "accept".equals(environment.getProperty("hoodkeeper.single-database-user"));
        boolean single = ownerUser.equals(app.user());
        if (single && !accepted) {
            throw new CannotStart("only one database user is given (" + app.user()
                    + "), so nothing would keep the service from changing what its ledger holds." + HOW + ACCEPT);
        }
        String verifier = environment.getProperty("hoodkeeper.verifier-role", single ? app.user() : Database.VERIFIER);
        String eraser = environment.getProperty("hoodkeeper.eraser-role", single ? app.user() : Database.ERASER);
        boolean powerful = inspect(app, owner, verifier, eraser);
        signIn(owner);
        if (powerful && !accepted) {
            throw new CannotStart("the database user " + app.user() + " is a superuser, bypasses row security, or may"
                    + " act as " + ownerUser + ", so grants do not bind it." + HOW + ACCEPT);
        }
        return new Database(
                Database.Kind.EXTERNAL,
                single || powerful ? Database.Users.ONE : Database.Users.SEPARATE,
                owner,
                app,
                verifier,
                eraser);
    }

    /** Tells whether the service's role is stronger than it may be. */
    private static boolean inspect(Login app, Login owner, String verifier, String eraser) {
        try (Connection connection = app.connect();
                PreparedStatement statement = connection.prepareStatement("""
                        select current_setting('server_version_num')::int as version,
                               (select rolsuper or rolbypassrls from pg_roles where rolname = current_user)
                                   or coalesce((select pg_has_role(oid, 'member') from pg_roles
                                                where rolname = ? and rolname <> current_user), false)
                                   or coalesce((select pg_has_role(oid, 'member') from pg_roles
                                                where rolname = ? and rolname <> current_user), false) as powerful,
                               exists (select from pg_roles where rolname = ?) as verifier_exists,
                               coalesce((select pg_has_role(o.oid, e.oid, 'member') from pg_roles o, pg_roles e
                                         where o.rolname = ? and e.rolname = ?), false) as eraser_ready
                        """)) {
            statement.setString(1, owner.user());
            statement.setString(2, eraser);
            statement.setString(3, verifier);
            statement.setString(4, owner.user());
            statement.setString(5, eraser);
            try (ResultSet row = statement.executeQuery()) {
                row.next();
                if (row.getInt("version") < OLDEST) {
                    throw new CannotStart("the PostgreSQL at " + app.url() + " is older than 15. Use 15 or newer.");
                }
                if (!row.getBoolean("verifier_exists")) {
                    throw new CannotStart("the database role " + verifier + " does not exist." + HOW);
                }
                if (!row.getBoolean("eraser_ready")) {
                    throw new CannotStart("the database role " + eraser
                            + ", which alone may erase records, does not exist, or " + owner.user()
                            + " is no member of it. Run ops/database-roles.sql again: it is safe to repeat.");
                }
                return row.getBoolean("powerful");
            }
        } catch (SQLException e) {
            throw unreachable(app, e);
        }
    }

    private static void signIn(Login login) {
        try {
            login.connect().close();
        } catch (SQLException e) {
            throw unreachable(login, e);
        }
    }

    private static CannotStart unreachable(Login login, SQLException why) {
        return new CannotStart("the PostgreSQL at " + login.url() + " does not let " + login.user() + " in: "
                + why.getMessage() + " Check SPRING_DATASOURCE_URL, _USERNAME and _PASSWORD, and SPRING_FLYWAY_USER and"
                + " _PASSWORD.");
    }

    private static String required(Environment environment, String name) {
        @Nullable String value = environment.getProperty(name);
        if (value == null || value.isBlank()) {
            throw new CannotStart("spring.datasource.url is set, but " + name + " is not." + HOW);
        }
        return value;
    }
}
