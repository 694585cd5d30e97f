package org.hoodkeeper.access;

import java.util.Optional;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Links by which a person chooses a password: the first one or, having forgotten it, the next. */
@Service
@Transactional
public class PasswordLinks {

    private final Accounts accounts;
    private final AccountRows rows;
    private final RoleRows roles;
    private final SecondPerson secondPerson;
    private final OneTimeLinks links;
    private final Passwords passwords;
    private final AccountSessions sessions;
    private final AuditTrail audit;

    PasswordLinks(
            Accounts accounts,
            AccountRows rows,
            RoleRows roles,
            SecondPerson secondPerson,
            OneTimeLinks links,
            Passwords passwords,
            AccountSessions sessions,
            AuditTrail audit) {
        this.accounts = accounts;
        this.rows = rows;
        this.roles = roles;
        this.secondPerson = secondPerson;
        this.links = links;
        this.passwords = passwords;
        this.sessions = sessions;
        this.audit = audit;
    }

    /**
     * Makes a link, to be handed to the person. The old password goes on until the link is used.
     *
     * @return the secret, shown once; empty when the account reaches behind the medical wall, so that a second person
     *     was asked to confirm instead
     * @throws Refused when the viewer does not administer all sites of the account
     */
    public Optional<String> make(AccountId account, Viewer by) {
        accounts.administersAllSitesOf(account, by);
        if (roles.holdsAnywhere(account, Role.HEALTH) || secondPerson.healthRoleIsOpen(account)) {
            secondPerson.askForPasswordLink(account, by);
            return Optional.empty();
        }
        audit.record(
                by.site(), AuditEntry.of("passwordLink.made").by(by.account()).about(account));
        return Optional.of(links.make(OneTimeLinks.Purpose.CHOOSE_PASSWORD, account));
    }

    @Transactional(readOnly = true)
    public boolean isOpen(String secret) {
        return links.isOpen(OneTimeLinks.Purpose.CHOOSE_PASSWORD, secret);
    }

    /**
     * Uses the link: the password is set and every open session of the account ends.
     *
     * @return the sign-in name, which the person may have forgotten as well
     * @throws NotFound when the link was used, has expired or never was
     * @throws Refused when the password is too short, too long or too easy; the link stays good
     */
    public String choose(String secret, String password) {
        AccountId account = links.use(OneTimeLinks.Purpose.CHOOSE_PASSWORD, secret)
                .map(OneTimeLinks.Used::account)
                .orElseThrow(() -> new NotFound("access.link.spent"));
        AccountRows.Row row = rows.byId(account).orElseThrow();
        passwords.check(password, row.login(), row.name());
        rows.password(account, passwords.encode(password));
        sessions.end(account);
        audit.record(AuditEntry.of("password.chosen").by(account).about(account));
        return row.login();
    }
}
