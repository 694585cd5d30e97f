package org.hoodkeeper.access;

import java.time.Instant;
import java.util.List;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Role;
import org.jspecify.annotations.Nullable;

/** An account as one site's administrator sees it: with its roles on that site alone. */
public record AccountLine(
        AccountId id,
        String login,
        String name,
        boolean hasPassword,
        @Nullable Instant disabledAt,
        List<RoleGrant> grants) {

    public AccountLine {
        grants = List.copyOf(grants);
    }

    public boolean isDisabled() {
        return disabledAt != null;
    }

    public boolean holds(Role role) {
        return grants.stream().anyMatch(grant -> grant.role() == role);
    }
}
