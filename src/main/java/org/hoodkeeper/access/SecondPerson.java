package org.hoodkeeper.access;

import com.fasterxml.uuid.Generators;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.UUID;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * What an administrator cannot do alone: give the health role, or renew the password of somebody who has it. An officer
 * or another administrator confirms. Confirming clears the password, ends the sessions and hands the <em>confirmer</em>
 * the link to choose a new one: neither of the two can prepare an account, have it raised and then walk in with it.
 */
@Service
@Transactional
public class SecondPerson {

    /** What is asked for. */
    public enum Asks {
        HEALTH_ROLE,
        PASSWORD_LINK
    }

    /** An open request. */
    public record Line(
            UUID id,
            AccountId account,
            String login,
            String name,
            Asks asks,
            AccountId askedBy,
            String askedByName,
            Instant askedAt) {}

    private record Request(AccountId account, Asks asks, AccountId askedBy) {}

    private final JdbcClient jdbc;
    private final AccountRows accounts;
    private final Grants grants;
    private final OneTimeLinks links;
    private final AccountSessions sessions;
    private final AuditTrail audit;

    SecondPerson(
            JdbcClient jdbc,
            AccountRows accounts,
            Grants grants,
            OneTimeLinks links,
            AccountSessions sessions,
            AuditTrail audit) {
        this.jdbc = jdbc;
        this.accounts = accounts;
        this.grants = grants;
        this.links = links;
        this.sessions = sessions;
        this.audit = audit;
    }

    void askForHealthRole(AccountId account, Viewer by) {
        ask(account, Asks.HEALTH_ROLE, by);
    }

    void askForPasswordLink(AccountId account, Viewer by) {
        ask(account, Asks.PASSWORD_LINK, by);
    }

    /** Whether the health role was asked for, on any site, and nobody has answered yet. */
    boolean healthRoleIsOpen(AccountId account) {
        return jdbc.sql("select exists (select 1 from role_request where account_id = :account and asks = 'HEALTH_ROLE'"
                        + " and confirmed_at is null and declined_at is null)")
                .param("account", account.value())
                .query(Boolean.class)
                .single();
    }

    /** Open requests of a site, oldest first. */
    @Transactional(readOnly = true)
    public List<Line> open(SiteId site) {
        return jdbc.sql(
                        "select q.request_id, q.account_id, a.login, a.name, q.asks, q.asked_by, b.name as asked_by_name,"
                                + " q.asked_at from role_request q join account a on a.account_id = q.account_id"
                                + " join account b on b.account_id = q.asked_by where q.site_id = :site"
                                + " and q.confirmed_at is null and q.declined_at is null order by q.asked_at, q.request_id")
                .param("site", site.value())
                .query((row, index) -> new Line(
                        row.getObject("request_id", UUID.class),
                        new AccountId(row.getObject("account_id", UUID.class)),
                        row.getString("login"),
                        row.getString("name"),
                        Asks.valueOf(row.getString("asks")),
                        new AccountId(row.getObject("asked_by", UUID.class)),
                        row.getString("asked_by_name"),
                        row.getObject("asked_at", OffsetDateTime.class).toInstant()))
                .list();
    }

    /**
     * Confirms, as an officer or administrator other than the one who asked and the one it is for.
     *
     * @return the secret of the link by which the person chooses a new password
     * @throws NotFound when no such request is open on the viewer's site
     * @throws Refused {@code access.request.samePerson} or {@code access.request.notYours}
     */
    public String confirm(UUID request, Viewer by) {
        if (!by.isAny(Role.OFFICER, Role.ADMINISTRATOR)) {
            throw new Refused("access.request.notYours");
        }
        Request open = take(request, by);
        if (by.account().equals(open.askedBy()) || by.account().equals(open.account())) {
            throw new Refused("access.request.samePerson");
        }
        end(request, by, "confirmed");
        if (open.asks() == Asks.HEALTH_ROLE) {
            grants.insert(open.account(), RoleGrant.of(by.site(), Role.HEALTH), open.askedBy());
        }
        accounts.clearPassword(open.account());
        sessions.end(open.account());
        audit.record(by.site(), entry("request.confirmed", open, by));
        return links.make(OneTimeLinks.Purpose.CHOOSE_PASSWORD, open.account());
    }

    /** Ends a request without effect: any officer or administrator may, also the one who asked. */
    public void decline(UUID request, Viewer by) {
        if (!by.isAny(Role.OFFICER, Role.ADMINISTRATOR)) {
            throw new Refused("access.request.notYours");
        }
        Request open = take(request, by);
        end(request, by, "declined");
        audit.record(by.site(), entry("request.declined", open, by));
    }

    private void ask(AccountId account, Asks asks, Viewer by) {
        boolean openAlready =
                open(by.site()).stream().anyMatch(line -> line.account().equals(account) && line.asks() == asks);
        if (openAlready) {
            throw new Refused("access.request.open");
        }
        try {
            jdbc.sql("insert into role_request (site_id, request_id, account_id, asks, asked_by)"
                            + " values (:site, :request, :account, :asks, :by)")
                    .param("site", by.site().value())
                    .param("request", Generators.timeBasedEpochGenerator().generate())
                    .param("account", account.value())
                    .param("asks", asks.name())
                    .param("by", by.account().value())
                    .update();
        } catch (DuplicateKeyException e) {
            throw new Refused("access.request.open");
        }
        audit.record(by.site(), entry("request.asked", new Request(account, asks, by.account()), by));
    }

    private Request take(UUID request, Viewer by) {
        return jdbc.sql("select account_id, asks, asked_by from role_request where site_id = :site"
                        + " and request_id = :request and confirmed_at is null and declined_at is null for update")
                .param("site", by.site().value())
                .param("request", request)
                .query((row, index) -> new Request(
                        new AccountId(row.getObject("account_id", UUID.class)),
                        Asks.valueOf(row.getString("asks")),
                        new AccountId(row.getObject("asked_by", UUID.class))))
                .optional()
                .orElseThrow(() -> new NotFound("access.request.unknown"));
    }

    /** @param end the column's name before {@code _by} and {@code _at}, one of two constants */
    private void end(UUID request, Viewer by, String end) {
        jdbc.sql("update role_request set " + end + "_by = :by, " + end + "_at = now()"
                        + " where site_id = :site and request_id = :request")
                .param("by", by.account().value())
                .param("site", by.site().value())
                .param("request", request)
                .update();
    }

    private static AuditEntry entry(String kind, Request request, Viewer by) {
        return AuditEntry.of(kind)
                .by(by.account())
                .about(request.account())
                .saying(request.asks().name());
    }
}
