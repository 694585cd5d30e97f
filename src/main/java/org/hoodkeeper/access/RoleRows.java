package org.hoodkeeper.access;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.WorkerId;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** The table of roles. A disabled account holds none: every reading below says so. */
@Repository
class RoleRows {

    private static final String COLUMNS = "select r.site_id, r.account_id, r.role, r.worker_id, r.employer"
            + " from account_role r join account a on a.account_id = r.account_id";

    private final JdbcClient jdbc;

    RoleRows(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** A role with its holder. */
    record Held(AccountId account, RoleGrant grant) {}

    List<RoleGrant> active(SiteId site, AccountId account) {
        return jdbc.sql(COLUMNS + " where r.site_id = :site and r.account_id = :account and a.disabled_at is null")
                .param("site", site.value())
                .param("account", account.value())
                .query(RoleRows::grant)
                .list();
    }

    /** On every site; accounts are few, so the table's own order does. */
    List<RoleGrant> active(AccountId account) {
        return jdbc.sql(COLUMNS + " where r.account_id = :account and a.disabled_at is null")
                .param("account", account.value())
                .query(RoleRows::grant)
                .list();
    }

    /** Also of disabled accounts: the administrator's list. */
    List<Held> all(SiteId site) {
        return jdbc.sql(COLUMNS + " where r.site_id = :site order by r.account_id, r.role")
                .param("site", site.value())
                .query((row, index) ->
                        new Held(new AccountId(row.getObject("account_id", UUID.class)), grant(row, index)))
                .list();
    }

    /** The sites on which an account, disabled or not, holds a role. */
    List<SiteId> sites(AccountId account) {
        return jdbc.sql("select distinct site_id from account_role where account_id = :account")
                .param("account", account.value())
                .query((row, index) -> new SiteId(row.getObject("site_id", UUID.class)))
                .list();
    }

    Set<Role> held(SiteId site, AccountId account) {
        return jdbc.sql("select role from account_role where site_id = :site and account_id = :account")
                .param("site", site.value())
                .param("account", account.value())
                .query((row, index) -> Role.valueOf(row.getString("role")))
                .set();
    }

    boolean holdsAnywhere(AccountId account, Role role) {
        return jdbc.sql("select exists (select 1 from account_role where account_id = :account and role = :role)")
                .param("account", account.value())
                .param("role", role.name())
                .query(Boolean.class)
                .single();
    }

    /** Until the transaction ends, so that two administrators cannot take each other's role at once. */
    void lockAdministrators(SiteId site) {
        jdbc.sql("select pg_advisory_xact_lock(hashtextextended('administrators ' || :site, 0))")
                .param("site", site.toString())
                .query((row, index) -> site)
                .list();
    }

    void insert(AccountId account, RoleGrant grant, @Nullable AccountId by) {
        WorkerId worker = grant.worker();
        jdbc.sql("insert into account_role (site_id, account_id, role, worker_id, employer, granted_by)"
                        + " values (:site, :account, :role, :worker, :employer, :by)")
                .param("site", grant.site().value())
                .param("account", account.value())
                .param("role", grant.role().name())
                .param("worker", worker == null ? null : worker.value())
                .param("employer", grant.employer())
                .param("by", by == null ? null : by.value())
                .update();
    }

    boolean delete(SiteId site, AccountId account, Role role) {
        return jdbc.sql("delete from account_role where site_id = :site and account_id = :account and role = :role")
                        .param("site", site.value())
                        .param("account", account.value())
                        .param("role", role.name())
                        .update()
                > 0;
    }

    boolean isTaken(SiteId site, WorkerId worker) {
        return jdbc.sql("select exists (select 1 from account_role where site_id = :site and worker_id = :worker)")
                .param("site", site.value())
                .param("worker", worker.value())
                .query(Boolean.class)
                .single();
    }

    private static RoleGrant grant(ResultSet row, int index) throws SQLException {
        UUID worker = row.getObject("worker_id", UUID.class);
        return new RoleGrant(
                new SiteId(row.getObject("site_id", UUID.class)),
                Role.valueOf(row.getString("role")),
                worker == null ? null : new WorkerId(worker),
                row.getString("employer"));
    }
}
