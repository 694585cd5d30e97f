package org.hoodkeeper.access;

import java.time.ZoneId;
import java.util.List;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Turns an empty database into one site with one administrator, by a link that only the console has shown. */
@Service
@Transactional
public class FirstAdministrator {

    /** What the first administrator fills in. */
    public record Beginning(
            String login,
            String name,
            String password,
            String siteCode,
            String siteName,
            ZoneId zone,
            String ruleSet) {}

    private final Accounts accounts;
    private final SiteRegister sites;
    private final OneTimeLinks links;
    private final AuditTrail audit;

    FirstAdministrator(Accounts accounts, SiteRegister sites, OneTimeLinks links, AuditTrail audit) {
        this.accounts = accounts;
        this.sites = sites;
        this.links = links;
        this.audit = audit;
    }

    /** @return the secret of a new link; earlier ones end */
    String makeLink() {
        return links.make(OneTimeLinks.Purpose.FIRST_ADMINISTRATOR, null);
    }

    @Transactional(readOnly = true)
    public boolean isOpen(String secret) {
        return accounts.none() && links.isOpen(OneTimeLinks.Purpose.FIRST_ADMINISTRATOR, secret);
    }

    /**
     * Opens the site and makes its administrator.
     *
     * @throws NotFound when the link is spent or there are accounts already
     * @throws Refused when the site, the account or the password is refused; nothing is kept then and the link stays good
     */
    public Site begin(String secret, Beginning beginning) {
        if (links.use(OneTimeLinks.Purpose.FIRST_ADMINISTRATOR, secret).isEmpty() || !accounts.none()) {
            throw new NotFound("access.link.spent");
        }
        Site site = sites.open(beginning.siteCode(), beginning.siteName(), beginning.zone(), beginning.ruleSet());
        AccountId first = accounts.layByOperator(
                new NewAccount(
                        beginning.login(), beginning.name(), List.of(RoleGrant.of(site.id(), Role.ADMINISTRATOR))),
                beginning.password());
        audit.record(AuditEntry.of("site.opened").by(first).about(site.id()));
        return site;
    }
}
