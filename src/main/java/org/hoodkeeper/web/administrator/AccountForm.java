package org.hoodkeeper.web.administrator;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotEmpty;
import java.util.List;
import org.hoodkeeper.access.NewAccount;
import org.hoodkeeper.access.RoleGrant;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.people.People;
import org.hoodkeeper.web.Choice;
import org.jspecify.annotations.Nullable;

/** A new account with its roles on this site. */
public record AccountForm(
        @NotBlank String login,
        @NotBlank String name,
        @NotEmpty List<Role> roles,
        @Nullable String worker,
        @Nullable String employer) {

    public AccountForm {
        roles = Choice.made(roles);
    }

    /** @throws Refused naming the field that is missing or cannot be read */
    NewAccount toAccount(SiteId site, People people) {
        List<RoleGrant> grants = roles.stream()
                .map(role -> GrantForm.grant(site, people, role, worker, employer))
                .toList();
        return new NewAccount(login, name, grants);
    }
}
