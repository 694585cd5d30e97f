package org.hoodkeeper.access;

import java.util.Set;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.WorkerId;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Which roles go together. */
@Component
class Grants {

    private final RoleRows roles;

    Grants(RoleRows roles) {
        this.roles = roles;
    }

    /** @param by who gives it; none when whoever runs the service does */
    void insert(AccountId account, RoleGrant grant, @Nullable AccountId by) {
        check(account, grant);
        WorkerId worker = grant.worker();
        if (worker != null && roles.isTaken(grant.site(), worker)) {
            throw new Refused("access.grant.worker.taken", worker);
        }
        roles.insert(account, grant, by);
    }

    /** Whoever administers sees no medical line, so nobody holds both roles on one site. */
    void check(AccountId account, RoleGrant grant) {
        Set<Role> held = roles.held(grant.site(), account);
        if (held.contains(grant.role())) {
            throw new Refused("access.grant.held", grant.role());
        }
        if (grant.role() == Role.HEALTH && held.contains(Role.ADMINISTRATOR)
                || grant.role() == Role.ADMINISTRATOR && held.contains(Role.HEALTH)) {
            throw new Refused("access.grant.healthAndAdministrator");
        }
    }

    void lockAdministrators(SiteId site) {
        roles.lockAdministrators(site);
    }
}
