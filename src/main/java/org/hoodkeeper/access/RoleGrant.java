package org.hoodkeeper.access;

import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.WorkerId;
import org.jspecify.annotations.Nullable;

/**
 * One role on one site.
 *
 * @param worker which worker the account is: with {@link Role#WORKER} and never otherwise
 * @param employer whose staff the account may see: with {@link Role#EMPLOYER} and never otherwise
 */
public record RoleGrant(
        SiteId site,
        Role role,
        @Nullable WorkerId worker,
        @Nullable String employer) {

    public RoleGrant {
        if ((role == Role.WORKER) != (worker != null)) {
            throw new Refused("access.grant.worker.missing", role);
        }
        employer = employer == null || employer.isBlank() ? null : employer.strip();
        if ((role == Role.EMPLOYER) != (employer != null)) {
            throw new Refused("access.grant.employer.missing", role);
        }
    }

    /** Any role but worker and employer. */
    public static RoleGrant of(SiteId site, Role role) {
        return new RoleGrant(site, role, null, null);
    }

    public static RoleGrant worker(SiteId site, WorkerId worker) {
        return new RoleGrant(site, Role.WORKER, worker, null);
    }

    public static RoleGrant employer(SiteId site, String employer) {
        return new RoleGrant(site, Role.EMPLOYER, null, employer);
    }
}
