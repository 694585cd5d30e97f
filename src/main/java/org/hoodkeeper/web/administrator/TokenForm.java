package org.hoodkeeper.web.administrator;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotEmpty;
import java.util.List;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.Choice;

/** A token to be made: what it is for and what it may do. */
public record TokenForm(@NotBlank String name, @NotEmpty List<Role> roles) {

    public TokenForm {
        roles = Choice.made(roles);
    }
}
