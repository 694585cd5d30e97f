package org.hoodkeeper.database;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalStateException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import org.hoodkeeper.kernel.SiteId;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/** What the service's role can and cannot do, on a table as db/README.md says to make one. */
@Tag("containers")
@SpringBootTest(classes = OnlyDatabase.class)
class SiteSecurityTest {

    private static final SiteId QUARRY = SiteId.of("00000000-0000-7000-8000-000000000001");
    private static final SiteId FOUNDRY = SiteId.of("00000000-0000-7000-8000-000000000002");

    @Autowired
    JdbcClient jdbc;

    TransactionTemplate transaction;

    @Autowired
    void transactionsOf(PlatformTransactionManager manager) {
        transaction = new TransactionTemplate(manager);
    }

    @BeforeAll
    static void aTableThatOnlyGrows(@Autowired PlatformTransactionManager afterMigrations) throws SQLException {
        owner("""
                drop table if exists note;
                create table note (
                    site_id uuid not null,
                    words   text not null,
                    constraint note_pk primary key (site_id, words)
                );
                alter table note enable row level security;
                alter table note force row level security;
                create policy note_of_site on note
                    using (site_id = nullif(current_setting('hoodkeeper.site', true), '')::uuid);
                revoke update, delete on note from hoodkeeper_app;
                """);
    }

    @AfterAll
    static void leavesNothing() throws SQLException {
        owner("drop table note");
    }

    @BeforeEach
    void oneRowPerSite() throws SQLException {
        owner("truncate note");
        write(QUARRY, "dust");
        write(FOUNDRY, "fume");
    }

    @Test
    void theServiceSignsInAsARoleThatGrantsAndRowSecurityBind() {
        assertThat(jdbc.sql("""
                                select rolname || ' ' || rolsuper || ' ' || rolbypassrls || ' '
                                       || pg_has_role(current_user, 'hoodkeeper_owner', 'member')
                                  from pg_roles where rolname = current_user
                                """).query(String.class).single()).isEqualTo("hoodkeeper_app false false false");
    }

    @Test
    void aTransactionSeesItsSiteOnly() {
        assertThat(words(QUARRY)).containsExactly("dust");
        assertThat(words(FOUNDRY)).containsExactly("fume");
    }

    @Test
    void askingForAnotherSiteByNameFindsNothing() {
        Long found = SiteBinding.in(
                QUARRY,
                () -> transaction.execute(status -> jdbc.sql("select count(*) from note where site_id = ?")
                        .param(FOUNDRY.value())
                        .query(Long.class)
                        .single()));
        assertThat(found).isZero();
    }

    @Test
    void aRowForAnotherSiteIsRefused() {
        assertThatThrownBy(() -> SiteBinding.run(QUARRY, () -> insert(FOUNDRY, "smuggled")))
                .hasStackTraceContaining("violates row-level security policy");
        assertThat(words(FOUNDRY)).containsExactly("fume");
    }

    @Test
    void withoutASiteNothingIsSeenAndNothingWritten() {
        assertThat(count()).isZero();
        assertThatThrownBy(() -> insert(QUARRY, "unbound")).hasStackTraceContaining("row-level security policy");
    }

    @Test
    void aConnectionGoesBackWithoutTheSite() {
        for (int use = 0; use < 40; use++) {
            words(QUARRY);
            assertThat(count()).isZero();
        }
    }

    @Test
    void aNewTransactionInsideAnotherSeesTheSameSite() {
        TransactionTemplate inner = new TransactionTemplate(transaction.getTransactionManager());
        inner.setPropagationBehavior(TransactionTemplate.PROPAGATION_REQUIRES_NEW);
        List<String> seen = SiteBinding.in(
                QUARRY,
                () -> transaction.execute(outerStatus -> inner.execute(status ->
                        jdbc.sql("select words from note").query(String.class).list())));
        assertThat(seen).containsExactly("dust");
    }

    @Test
    void anOpenTransactionCannotTurnToAnotherSite() {
        assertThatIllegalStateException()
                .isThrownBy(() -> SiteBinding.run(
                        QUARRY, () -> transaction.executeWithoutResult(status -> SiteBinding.run(FOUNDRY, () -> {}))))
                .withMessageContaining(FOUNDRY.toString());
    }

    @Test
    void aTransactionBegunForNoSiteCannotTurnToOne() {
        assertThatIllegalStateException()
                .isThrownBy(() -> transaction.executeWithoutResult(status -> SiteBinding.run(QUARRY, () -> {})))
                .withMessageContaining("no site");
    }

    @Test
    void afterTheWorkTheSiteBeforeIsBoundAgain() {
        SiteBinding.run(QUARRY, () -> {
            SiteBinding.run(FOUNDRY, () -> assertThat(SiteBinding.current()).isEqualTo(FOUNDRY));
            assertThat(SiteBinding.current()).isEqualTo(QUARRY);
        });
        assertThat(SiteBinding.current()).isNull();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "update note set words = 'mine'",
                "delete from note",
                "truncate note",
                "alter table note add column mine text",
                "alter table note disable row level security",
                "drop policy note_of_site on note",
                "drop table note",
                "create table mine (words text)",
                "update service_clock set offset_micros = 60000000",
                "set role hoodkeeper_owner"
            })
    void theServiceCannot(String sql) throws SQLException {
        try (Connection app = TestDatabase.asApp();
                Statement statement = app.createStatement()) {
            statement.execute("select set_config('hoodkeeper.site', '" + QUARRY + "', false)");
            assertThatThrownBy(() -> statement.execute(sql))
                    .isInstanceOfSatisfying(
                            SQLException.class, e -> assertThat(e.getSQLState()).isEqualTo("42501"));
        }
        assertThat(words(QUARRY)).containsExactly("dust");
    }

    @Test
    void theReaderReadsAndNothingElse() throws SQLException {
        try (Connection reader = TestDatabase.asVerifier();
                Statement statement = reader.createStatement()) {
            statement.execute("select set_config('hoodkeeper.site', '" + FOUNDRY + "', false)");
            assertThat(statement.executeQuery("select words from note").next()).isTrue();
            assertThatThrownBy(() -> statement.execute("insert into note values ('" + FOUNDRY + "', 'more')"))
                    .hasMessageContaining("permission denied");
            assertThatThrownBy(() -> statement.execute("select * from spring_session"))
                    .hasMessageContaining("permission denied");
        }
    }

    @Test
    void bothExtensionsAreThere() {
        assertThat(jdbc.sql("select extname from pg_extension")
                        .query(String.class)
                        .list())
                .contains("btree_gist", "pgcrypto");
    }

    private static void owner(String sql) throws SQLException {
        try (Connection owner = TestDatabase.asOwner();
                Statement statement = owner.createStatement()) {
            statement.execute(sql);
        }
    }

    private void write(SiteId site, String words) {
        SiteBinding.run(site, () -> insert(site, words));
    }

    private void insert(SiteId site, String words) {
        transaction.executeWithoutResult(status -> jdbc.sql("insert into note (site_id, words) values (?, ?)")
                .param(site.value())
                .param(words)
                .update());
    }

    private List<String> words(SiteId site) {
        return SiteBinding.in(
                site,
                () -> transaction.execute(status ->
                        jdbc.sql("select words from note").query(String.class).list()));
    }

    private long count() {
        return transaction.execute(status ->
                jdbc.sql("select count(*) from note").query(Long.class).single());
    }
}
