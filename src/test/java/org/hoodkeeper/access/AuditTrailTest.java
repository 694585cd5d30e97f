package org.hoodkeeper.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.database.TestDatabase;
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
                "truncate service_audit_event"
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

    private Integer entries() {
        return transaction.execute(status -> jdbc.sql("select count(*) from audit_event where kind = 'test.entry'")
                .query(Integer.class)
                .single());
    }
}
