package org.hoodkeeper.access;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * The accounts and what each may do where.
 *
 * <p>An administrator works on one site. An account that also holds roles elsewhere can be given or refused roles here,
 * but it is disabled, or its password renewed, only by somebody who administers each of its sites: otherwise one site's
 * administrator could walk into another site.
 */
@Service
@Transactional
public class Accounts {

    private final AccountRows accounts;
    private final RoleRows roles;
    private final Grants grants;
    private final Passwords passwords;
    private final SecondPerson secondPerson;
    private final AccountSessions sessions;
    private final AuditTrail audit;

    Accounts(
            AccountRows accounts,
            RoleRows roles,
            Grants grants,
            Passwords passwords,
            SecondPerson secondPerson,
            AccountSessions sessions,
            AuditTrail audit) {
        this.accounts = accounts;
        this.roles = roles;
        this.grants = grants;
        this.passwords = passwords;
        this.secondPerson = secondPerson;
        this.sessions = sessions;
        this.audit = audit;
    }

    /** Whether there is no account at all, disabled ones counted. */
    @Transactional(readOnly = true)
    public boolean none() {
        return accounts.none();
    }

    /**
     * Makes an account with a password, on behalf of whoever runs the service: for the first administrator and the
     * demo. No administrator stands behind it, so the health role needs no second person here. Never call it from a
     * page.
     *
     * @throws Refused when the sign-in name is taken, the roles do not go together or the password is too easy
     */
    public AccountId layByOperator(NewAccount account, String password) {
        passwords.check(password, account.login(), account.name());
        AccountId id = insert(account);
        account.grants().forEach(grant -> grants.insert(id, grant, null));
        accounts.password(id, passwords.encode(password));
        audit.record(AuditEntry.of("account.laid").about(id));
        return id;
    }

    /**
     * Makes an account without a password; the person chooses one by a one-time link. A health role waits for a second
     * person and is not held before that.
     *
     * @throws Refused when the sign-in name is taken, a grant is for another site, or the roles do not go together
     */
    public AccountId add(NewAccount account, Viewer by) {
        administers(by);
        AccountId id = insert(account);
        audit.record(by.site(), AuditEntry.of("account.added").by(by.account()).about(id));
        account.grants().forEach(grant -> give(id, grant, by));
        return id;
    }

    /**
     * Gives roles on the viewer's site to an account that exists already, known by its sign-in name.
     *
     * @throws NotFound when nobody signs in by that name
     */
    public AccountId addKnown(String login, List<RoleGrant> given, Viewer by) {
        administers(by);
        AccountId id = accounts.byLogin(NewAccount.plain(login))
                .orElseThrow(() -> new NotFound("access.login.unknown", login.strip()))
                .account();
        given.forEach(grant -> give(id, grant, by));
        return id;
    }

    /**
     * Gives one role on the viewer's site; the health role is only asked for, see {@link SecondPerson}. Nobody gives
     * themself a role: whoever administers would otherwise become the officer with nobody else knowing.
     *
     * @throws Refused {@code access.grant.yourself}, {@code access.grant.held},
     *     {@code access.grant.healthAndAdministrator} or {@code access.grant.worker.taken}
     */
    public void give(AccountId account, RoleGrant grant, Viewer by) {
        administers(by);
        if (account.equals(by.account())) {
            throw new Refused("access.grant.yourself");
        }
        if (!grant.site().equals(by.site())) {
            throw new Refused("access.grant.otherSite");
        }
        lock(account);
        if (grant.role() == Role.HEALTH) {
            grants.check(account, grant);
            secondPerson.askForHealthRole(account, by);
            return;
        }
        grants.insert(account, grant, by.account());
        audit.record(
                by.site(),
                AuditEntry.of("role.given")
                        .by(by.account())
                        .about(account)
                        .saying(grant.role().name()));
    }

    /** @throws Refused {@code access.lastAdministrator} when nobody would be left to administer the site */
    public void take(AccountId account, Role role, Viewer by) {
        administers(by);
        if (role == Role.ADMINISTRATOR) {
            refuseLastAdministrator(account, by);
        }
        if (!roles.delete(by.site(), account, role)) {
            throw new NotFound("access.grant.notHeld", role);
        }
        audit.record(
                by.site(),
                AuditEntry.of("role.taken").by(by.account()).about(account).saying(role.name()));
    }

    /**
     * Shuts the account and ends its sessions; its tokens stop with it. Nobody disables themself, so that each of the
     * sites keeps an administrator.
     */
    public void disable(AccountId account, Viewer by) {
        if (account.equals(by.account())) {
            throw new Refused("access.account.yourself");
        }
        administersAllSitesOf(account, by);
        accounts.disable(account);
        sessions.end(account);
        audit.record(
                by.site(), AuditEntry.of("account.disabled").by(by.account()).about(account));
    }

    public void enable(AccountId account, Viewer by) {
        administersAllSitesOf(account, by);
        accounts.enable(account);
        audit.record(
                by.site(), AuditEntry.of("account.enabled").by(by.account()).about(account));
    }

    /** Signs the account out everywhere. */
    public void endSessions(AccountId account, Viewer by) {
        administers(by);
        find(by.site(), account);
        sessions.end(account);
        audit.record(by.site(), AuditEntry.of("sessions.ended").by(by.account()).about(account));
    }

    /** Everybody with a role on this site, by sign-in name; disabled accounts too. */
    @Transactional(readOnly = true)
    public List<AccountLine> on(SiteId site) {
        return accounts.on(site, roles.all(site));
    }

    /** @throws NotFound when the account holds no role on this site and none is asked for */
    @Transactional(readOnly = true)
    public AccountLine find(SiteId site, AccountId account) {
        return on(site).stream()
                .filter(line -> line.id().equals(account))
                .findFirst()
                .orElseThrow(() -> new NotFound("access.account.unknown"));
    }

    /** What an account may do now on each site; empty for a disabled one. */
    @Transactional(readOnly = true)
    public List<RoleGrant> rolesOf(AccountId account) {
        return roles.active(account);
    }

    /** The account as a reader of one site; empty when it holds no role there or is disabled. */
    @Transactional(readOnly = true)
    public Optional<Viewer> viewer(SiteId site, AccountId account) {
        List<RoleGrant> active = roles.active(site, account);
        if (active.isEmpty()) {
            return Optional.empty();
        }
        Set<Role> held = active.stream().map(RoleGrant::role).collect(Collectors.toSet());
        WorkerId worker = active.stream()
                .flatMap(grant -> Optional.ofNullable(grant.worker()).stream())
                .findFirst()
                .orElse(null);
        String employer = active.stream()
                .flatMap(grant -> Optional.ofNullable(grant.employer()).stream())
                .findFirst()
                .orElse(null);
        return Optional.of(new Viewer(site, account, held, worker, employer));
    }

    /** @throws Refused when the account holds roles on a site that the viewer does not administer */
    void administersAllSitesOf(AccountId account, Viewer by) {
        administers(by);
        lock(account);
        find(by.site(), account);
        Set<SiteId> administered = roles.active(by.account()).stream()
                .filter(grant -> grant.role() == Role.ADMINISTRATOR)
                .map(RoleGrant::site)
                .collect(Collectors.toSet());
        if (!administered.containsAll(roles.sites(account))) {
            throw new Refused("access.account.otherSites");
        }
    }

    private AccountId insert(NewAccount account) {
        if (accounts.byLogin(account.login()).isPresent()) {
            throw new Refused("access.login.taken", account.login());
        }
        return accounts.insert(account);
    }

    private void refuseLastAdministrator(AccountId account, Viewer by) {
        grants.lockAdministrators(by.site());
        boolean anotherOne = on(by.site()).stream()
                .anyMatch(line -> !line.id().equals(account) && !line.isDisabled() && line.holds(Role.ADMINISTRATOR));
        if (!anotherOne) {
            throw new Refused("access.lastAdministrator");
        }
    }

    private void lock(AccountId account) {
        if (accounts.lock(account).isEmpty()) {
            throw new NotFound("access.account.unknown");
        }
    }

    private static void administers(Viewer by) {
        if (!by.is(Role.ADMINISTRATOR)) {
            throw new Refused("access.notAdministrator");
        }
    }
}
