package org.hoodkeeper;

import static org.assertj.core.api.Assertions.assertThat;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.hoodkeeper.database.TestDatabase;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.springframework.boot.test.context.SpringBootTest;

/**
 * Every key, foreign key, unique key and index starts with the site, so that the schema can be spread by site. What belongs to
 * no site stands in this list.
 */
@SpringBootTest
@Tag("containers")
class SiteLessTablesTest {

    /** Rule sets, accounts and what belongs to an account, sessions, migration, clock. */
    private static final Set<String> SITE_LESS = Set.of(
            "rule_set",
            "account",
            "account_token",
            "one_time_link",
            "sign_in_pause",
            "sign_in_place",
            "service_audit_event",
            "service_audit_seal",
            "service_audit_head",
            "service_clock",
            "spring_session",
            "spring_session_attributes",
            "flyway_schema_history");

    /** By account: they answer "where may this account go" before any site is known; site code: found before its id is. */
    private static final Set<String> BEFORE_ANY_SITE =
            Set.of("account_role_by_account", "site_code_once", "role_request_by_account");

    @Test
    void everyIndexAndKeyStartsWithTheSite() throws SQLException {
        List<String> wrong = list("""
                select t.relname || ': ' || i.relname from pg_index x
                join pg_class i on i.oid = x.indexrelid
                join pg_class t on t.oid = x.indrelid
                join pg_namespace n on n.oid = t.relnamespace and n.nspname = 'public'
                left join pg_attribute a on a.attrelid = t.oid and a.attnum = x.indkey[0]
                where a.attname is distinct from 'site_id'""");
        assertThat(wrong.stream()
                        .filter(line -> !SITE_LESS.contains(line.split(": ")[0]))
                        .filter(line -> !BEFORE_ANY_SITE.contains(line.split(": ")[1])))
                .isEmpty();
    }

    @Test
    void everyForeignKeyStartsWithTheSite() throws SQLException {
        List<String> wrong = list("""
                select t.relname || ': ' || c.conname from pg_constraint c
                join pg_class t on t.oid = c.conrelid
                join pg_namespace n on n.oid = t.relnamespace and n.nspname = 'public'
                join pg_class f on f.oid = c.confrelid
                join pg_attribute a on a.attrelid = t.oid and a.attnum = c.conkey[1]
                where c.contype = 'f' and a.attname <> 'site_id' and f.relname not in ('account', 'spring_session')""");
        assertThat(wrong).isEmpty();
    }

    @Test
    void whatIsListedAsSiteLessIsSo() throws SQLException {
        List<String> withSite = list("""
                select distinct table_name from information_schema.columns
                where table_schema = 'public' and column_name = 'site_id' and is_nullable = 'NO'""");
        assertThat(withSite)
                .doesNotContainAnyElementsOf(SITE_LESS.stream()
                        .filter(table -> !table.equals("account_token"))
                        .toList());
        assertThat(list("select table_name::text from information_schema.tables where table_schema = 'public'"))
                .containsAll(SITE_LESS);
    }

    private static List<String> list(String query) throws SQLException {
        List<String> found = new ArrayList<>();
        try (Connection owner = TestDatabase.asOwner();
                Statement sql = owner.createStatement();
                ResultSet rows = sql.executeQuery(query)) {
            while (rows.next()) {
                found.add(rows.getString(1));
            }
        }
        return found;
    }
}
