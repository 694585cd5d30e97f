package org.hoodkeeper.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.database.TestDatabase;
import org.hoodkeeper.ledger.Chain;
import org.hoodkeeper.programme.Site;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.support.TransactionTemplate;

@OverHttp
class AuditTrailTest {

    @Autowired
    AuditTrail audit;

    @Autowired
    AuditChain chain;

    @Autowired
    TestPeople people;

    @Autowired
    JdbcClient jdbc;

    @Autowired
    TransactionTemplate transaction;

    @ParameterizedTest
    @ValueSource(
            strings = {
                "update audit_event set kind = 'made.up'",
                "delete from audit_event",
                "truncate audit_event",
                "alter table audit_event disable row level security",
                "update service_audit_event set kind = 'made.up'",
                "delete from service_audit_event",
                "truncate service_audit_event",
                "update audit_seal set position = 0",
                "delete from audit_seal",
                "delete from audit_head",
                "update service_audit_seal set position = 0",
                "delete from service_audit_seal"
            })
    void theServiceCannotChangeWhatItRecorded(String statement) throws SQLException {
        try (Connection app = TestDatabase.asApp();
                Statement sql = app.createStatement()) {
            assertThatThrownBy(() -> sql.execute(statement))
                    .hasMessageMatching("(?s).*(permission denied|must be owner).*");
        }
    }

    @Test
    void aSitesTrailIsSeenAndWrittenOnThatSiteOnly() {
        Site site = people.site();
        Site other = people.site();
        people.on(site, () -> audit.record(site.id(), AuditEntry.of("test.entry")));
        assertThat(SiteBinding.in(site.id(), this::entries)).isEqualTo(1);
        assertThat(SiteBinding.in(other.id(), this::entries)).isZero();
        assertThatThrownBy(() -> people.on(other, () -> audit.record(site.id(), AuditEntry.of("test.entry"))))
                .isInstanceOf(DataAccessException.class);
    }

    @Test
    void anEntryGoesWithTheChangeItTellsOf() {
        Site site = people.site();
        people.on(
                site,
                () -> transaction.executeWithoutResult(status -> {
                    audit.record(site.id(), AuditEntry.of("test.entry"));
                    status.setRollbackOnly();
                }));
        assertThat(SiteBinding.in(site.id(), this::entries)).isZero();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "update audit_event set detail = 'other' where kind = 'test.second'; event.changed",
                "update audit_event set actor = gen_random_uuid() where kind = 'test.second'; event.changed",
                "delete from audit_event where kind = 'test.second'; event.missing",
                "insert into audit_event (site_id, event_id, recorded_at, kind) select site_id, gen_random_uuid(), recorded_at,"
                        + " 'test.made' from audit_event where kind = 'test.second'; event.inserted",
                "delete from audit_seal where position = 1; seal.missing",
                "update audit_seal set until = until + interval '1 second' where position = 1; seal.changed",
                "update audit_head set hash = 'x' where position = 2; head.differs"
            })
    void whateverIsChangedBehindItsBackIsFoundAndNamed(String line) throws SQLException {
        Site site = people.site();
        people.on(site, () -> audit.record(site.id(), AuditEntry.of("test.first")));
        SiteBinding.run(site.id(), () -> chain.seal(site.id()));
        people.on(site, () -> audit.record(site.id(), AuditEntry.of("test.second")));
        SiteBinding.run(site.id(), () -> chain.seal(site.id()));
        Chain.Checked whole = SiteBinding.in(site.id(), () -> chain.check(site.id()));
        assertThat(whole.broken()).isEmpty();
        assertThat(whole.position()).isEqualTo(2);
        assertThat(whole.unsealed()).isZero();
        String[] parts = line.split("; ");
        asOwner(parts[0] + " and site_id = '" + site.id() + "'");
        assertThat(SiteBinding.in(site.id(), () -> chain.check(site.id())).broken())
                .extracting(Chain.Broken::what)
                .contains(parts[1]);
    }

    @Test
    void whatBelongsToNoSiteHasAChainOfItsOwn() {
        audit.record(AuditEntry.of("test.entry"));
        while (chain.seal(null) > 0) {
            // until nothing is left
        }
        Chain.Checked checked = chain.check(null);
        assertThat(checked.broken()).isEmpty();
        assertThat(checked.entries()).isPositive();
        assertThat(chain.seal(null, checked.position()).hash()).isEqualTo(checked.head());
    }

    /** Lifts the forced row security for one statement, as only the owner of the tables can. */
    private static void asOwner(String statement) throws SQLException {
        try (Connection owner = TestDatabase.asOwner();
                Statement sql = owner.createStatement()) {
            for (String table : List.of("audit_event", "audit_seal", "audit_head")) {
                sql.execute("alter table " + table + " no force row level security");
            }
            sql.execute(statement);
            for (String table : List.of("audit_event", "audit_seal", "audit_head")) {
                sql.execute("alter table " + table + " force row level security");
            }
        }
    }

    private Integer entries() {
        return transaction.execute(status -> jdbc.sql("select count(*) from audit_event where kind = 'test.entry'")
                .query(Integer.class)
                .single());
    }
}
