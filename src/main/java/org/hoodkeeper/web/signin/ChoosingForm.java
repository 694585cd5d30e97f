package org.hoodkeeper.web.signin;

import jakarta.validation.constraints.NotEmpty;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/** A new password, typed twice: nobody sees what they type. */
public record ChoosingForm(
        @NotEmpty String password, @Nullable String again) {

    /** @throws Refused {@code password.again.differs} */
    String agreed() {
        if (!password.equals(again)) {
            throw new Refused("password.again.differs");
        }
        return password;
    }
}
