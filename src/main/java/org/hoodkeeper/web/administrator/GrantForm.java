package org.hoodkeeper.web.administrator;

import jakarta.validation.constraints.NotNull;
import java.util.Objects;
import org.hoodkeeper.access.RoleGrant;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.people.People;
import org.jspecify.annotations.Nullable;

/** One more role for an account. */
public record GrantForm(
        @NotNull @Nullable Role role,
        @Nullable String worker,
        @Nullable String employer) {

    /** @throws Refused naming the field that is missing or cannot be read */
    RoleGrant toGrant(SiteId site, People people) {
        return grant(site, people, Objects.requireNonNull(role), worker, employer);
    }

    /** A worker's number and an employer's name are read for the role that needs them, and left alone for the others. */
    static RoleGrant grant(SiteId site, People people, Role role, @Nullable String worker, @Nullable String employer) {
        return new RoleGrant(
                site,
                role,
                role == Role.WORKER ? worker(site, people, worker) : null,
                role == Role.EMPLOYER ? employer : null);
    }

    private static @Nullable WorkerId worker(SiteId site, People people, @Nullable String typed) {
        if (typed == null || typed.isBlank()) {
            return null;
        }
        try {
            return people.byNumber(site, typed.strip()).id();
        } catch (NotFound nobody) {
            throw new Refused("access.grant.worker.form", typed);
        }
    }
}
