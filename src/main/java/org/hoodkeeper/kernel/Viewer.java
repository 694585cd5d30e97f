package org.hoodkeeper.kernel;

import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Who is asking, on one site, with the roles held there.
 *
 * @param worker the worker this account is, where it is one
 * @param employer the employer whose staff an {@link Role#EMPLOYER} may see
 */
public record Viewer(
        SiteId site,
        AccountId account,
        Set<Role> roles,
        @Nullable WorkerId worker,
        @Nullable String employer) {

    public Viewer {
        roles = Set.copyOf(roles);
    }

    public boolean is(Role role) {
        return roles.contains(role);
    }

    public boolean isAny(Role... any) {
        for (Role role : any) {
            if (roles.contains(role)) {
                return true;
            }
        }
        return false;
    }

    public boolean isSelf(WorkerId someone) {
        return someone.equals(worker);
    }
}
