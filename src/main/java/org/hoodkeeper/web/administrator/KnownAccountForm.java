package org.hoodkeeper.web.administrator;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import java.util.Objects;
import org.hoodkeeper.access.RoleGrant;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.people.People;
import org.jspecify.annotations.Nullable;

/** A role on this site for somebody who already signs in on another one. */
public record KnownAccountForm(
        @NotBlank String login,
        @NotNull @Nullable Role role,
        @Nullable String worker,
        @Nullable String employer) {

    /** @throws Refused naming the field that is missing or cannot be read */
    RoleGrant toGrant(SiteId site, People people) {
        return GrantForm.grant(site, people, Objects.requireNonNull(role), worker, employer);
    }
}
