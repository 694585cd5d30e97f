package org.hoodkeeper.access;

import static java.util.stream.Collectors.groupingBy;
import static java.util.stream.Collectors.mapping;
import static java.util.stream.Collectors.toList;

import com.fasterxml.uuid.Generators;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.SiteId;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** The table of accounts. */
@Repository
class AccountRows {

    private final JdbcClient jdbc;

    AccountRows(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** What a sign-in needs; the password is encoded and missing until the person has chosen one. */
    record Row(UUID id, String login, String name, @Nullable String password, boolean disabled) {

        AccountId account() {
            return new AccountId(id);
        }

        KnownAccount known() {
            return new KnownAccount(id, login, name);
        }
    }

    Optional<Row> byLogin(String login) {
        return jdbc.sql("select account_id as id, login, name, password, disabled_at is not null as disabled"
                        + " from account where login = :login")
                .param("login", login)
                .query(Row.class)
                .optional();
    }

    Optional<Row> byId(AccountId account) {
        return jdbc.sql("select account_id as id, login, name, password, disabled_at is not null as disabled"
                        + " from account where account_id = :account")
                .param("account", account.value())
                .query(Row.class)
                .optional();
    }

    /** Accounts with a role on the site or with one asked for, by sign-in name. */
    List<AccountLine> on(SiteId site, List<RoleRows.Held> roles) {
        Map<AccountId, List<RoleGrant>> grants =
                roles.stream().collect(groupingBy(RoleRows.Held::account, mapping(RoleRows.Held::grant, toList())));
        return jdbc.sql(
                        "select account_id, login, name, password is not null as has_password, disabled_at from account a"
                                + " where exists (select 1 from account_role r"
                                + "   where r.site_id = :site and r.account_id = a.account_id)"
                                + " or exists (select 1 from role_request q where q.site_id = :site"
                                + "   and q.account_id = a.account_id and q.confirmed_at is null and q.declined_at is null)"
                                + " order by login")
                .param("site", site.value())
                .query((row, index) -> line(row, grants))
                .list();
    }

    private static AccountLine line(ResultSet row, Map<AccountId, List<RoleGrant>> grants) throws SQLException {
        AccountId id = new AccountId(row.getObject("account_id", UUID.class));
        OffsetDateTime disabled = row.getObject("disabled_at", OffsetDateTime.class);
        return new AccountLine(
                id,
                row.getString("login"),
                row.getString("name"),
                row.getBoolean("has_password"),
                disabled == null ? null : disabled.toInstant(),
                grants.getOrDefault(id, List.of()));
    }

    boolean none() {
        return !jdbc.sql("select exists (select 1 from account)")
                .query(Boolean.class)
                .single();
    }

    AccountId insert(NewAccount account) {
        UUID id = Generators.timeBasedEpochGenerator().generate();
        jdbc.sql("insert into account (account_id, login, name) values (:id, :login, :name)")
                .param("id", id)
                .param("login", account.login())
                .param("name", account.name())
                .update();
        return new AccountId(id);
    }

    void password(AccountId account, String encoded) {
        jdbc.sql("update account set password = :encoded where account_id = :account")
                .param("encoded", encoded)
                .param("account", account.value())
                .update();
    }

    /** Nobody signs in by password until a new one is chosen. */
    void clearPassword(AccountId account) {
        jdbc.sql("update account set password = null where account_id = :account")
                .param("account", account.value())
                .update();
    }

    /** Stores the same password in today's encoding, unless it was changed meanwhile. */
    void encodeAnew(Row seen, String encoded) {
        jdbc.sql("update account set password = :encoded where account_id = :account and password = :seen")
                .param("encoded", encoded)
                .param("account", seen.id())
                .param("seen", seen.password())
                .update();
    }

    void disable(AccountId account) {
        jdbc.sql("update account set disabled_at = now() where account_id = :account and disabled_at is null")
                .param("account", account.value())
                .update();
    }

    void enable(AccountId account) {
        jdbc.sql("update account set disabled_at = null where account_id = :account")
                .param("account", account.value())
                .update();
    }

    /** Locks the row, so that two changes of one account follow each other. */
    List<UUID> lock(AccountId account) {
        return jdbc.sql("select account_id from account where account_id = :account for update")
                .param("account", account.value())
                .query(UUID.class)
                .list();
    }
}
