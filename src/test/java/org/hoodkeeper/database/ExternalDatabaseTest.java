package org.hoodkeeper.database;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.springframework.boot.health.contributor.Health;
import org.springframework.mock.env.MockEnvironment;

@Tag("containers")
class ExternalDatabaseTest {

    private final Database there = TestDatabase.shared();
    private final MockEnvironment environment = new MockEnvironment();

    @BeforeEach
    void bothUsersGiven() {
        environment.setProperty("spring.datasource.url", there.app().url());
        give("spring.datasource.username", "spring.datasource.password", there.app());
        give("spring.flyway.user", "spring.flyway.password", there.owner());
    }

    @Test
    void twoUsersAreAccepted() {
        Database database = ExternalDatabase.from(environment);
        assertThat(database.users()).isEqualTo(Database.Users.SEPARATE);
        assertThat(database.app().user()).isEqualTo("hoodkeeper_app");
        assertThat(database.owner().user()).isEqualTo("hoodkeeper_owner");
        Health health = new DatabaseHealth(database).health();
        assertThat(health.getDetails()).containsEntry("users", "separate").doesNotContainKey("warning");
    }

    @Test
    void oneUserIsRefused() {
        give("spring.datasource.username", "spring.datasource.password", there.owner());
        assertThatExceptionOfType(CannotStart.class)
                .isThrownBy(() -> ExternalDatabase.from(environment))
                .withMessageStartingWith("only one database user is given (hoodkeeper_owner)")
                .withMessageContaining("ops/database-roles.sql")
                .withMessageContaining("hoodkeeper.single-database-user=accept");
    }

    @Test
    void oneAcceptedUserIsSaidOnTheHealthPage() {
        give("spring.datasource.username", "spring.datasource.password", there.owner());
        environment.setProperty("hoodkeeper.single-database-user", "accept");
        Database database = ExternalDatabase.from(environment);
        assertThat(database.users()).isEqualTo(Database.Users.ONE);
        assertThat(new DatabaseHealth(database).health().getDetails())
                .containsEntry("users", "one")
                .containsKey("warning");
    }

    @Test
    void aSuperuserServingRequestsIsRefused() {
        give("spring.datasource.username", "spring.datasource.password", TestDatabase.superuser());
        assertThatExceptionOfType(CannotStart.class)
                .isThrownBy(() -> ExternalDatabase.from(environment))
                .withMessageContaining("is a superuser, bypasses row security, or may act as hoodkeeper_owner");
    }

    @Test
    void aServiceThatMayActAsTheOwnerIsRefused() throws SQLException {
        superuser("create role too_near login password 'only-for-tests' in role hoodkeeper_owner");
        try {
            give(
                    "spring.datasource.username",
                    "spring.datasource.password",
                    new Login(there.app().url(), "too_near", "only-for-tests"));
            assertThatExceptionOfType(CannotStart.class)
                    .isThrownBy(() -> ExternalDatabase.from(environment))
                    .withMessageContaining("the database user too_near");
        } finally {
            superuser("drop role too_near");
        }
    }

    @Test
    void aWrongPasswordIsNamedWithoutShowingIt() {
        environment.setProperty("spring.flyway.password", "guessed-wrong");
        assertThatExceptionOfType(CannotStart.class)
                .isThrownBy(() -> ExternalDatabase.from(environment))
                .withMessageContaining("does not let hoodkeeper_owner in")
                .withMessageNotContaining("guessed-wrong");
    }

    @Test
    void aMissingReaderRoleIsNamed() {
        environment.setProperty("hoodkeeper.verifier-role", "nobody_reads");
        assertThatExceptionOfType(CannotStart.class)
                .isThrownBy(() -> ExternalDatabase.from(environment))
                .withMessageContaining("the database role nobody_reads does not exist");
    }

    /** A database of an earlier version has no such role: the start says what to do. */
    @Test
    void aMissingErasingRoleIsNamed() {
        environment.setProperty("hoodkeeper.eraser-role", "nobody_erases");
        assertThatExceptionOfType(CannotStart.class)
                .isThrownBy(() -> ExternalDatabase.from(environment))
                .withMessageContaining("the database role nobody_erases, which alone may erase records, does not exist")
                .withMessageContaining("Run ops/database-roles.sql again");
    }

    @Test
    void aServiceThatMayActAsTheErasingRoleIsRefused() throws SQLException {
        superuser("create role erases_too login password 'only-for-tests' in role hoodkeeper_app, hoodkeeper_eraser");
        try {
            give(
                    "spring.datasource.username",
                    "spring.datasource.password",
                    new Login(there.app().url(), "erases_too", "only-for-tests"));
            assertThatExceptionOfType(CannotStart.class)
                    .isThrownBy(() -> ExternalDatabase.from(environment))
                    .withMessageContaining("the database user erases_too");
        } finally {
            superuser("drop role erases_too");
        }
    }

    @Test
    void anAddressWithoutAUserIsRefused() {
        environment.setProperty("spring.datasource.username", "");
        assertThatExceptionOfType(CannotStart.class)
                .isThrownBy(() -> ExternalDatabase.from(environment))
                .withMessageContaining("spring.datasource.username is not");
    }

    private void give(String user, String password, Login login) {
        environment.setProperty(user, login.user());
        environment.setProperty(password, login.password());
    }

    private static void superuser(String sql) throws SQLException {
        try (Connection superuser = TestDatabase.superuser().connect();
                Statement statement = superuser.createStatement()) {
            statement.execute(sql);
        }
    }
}
