package org.hoodkeeper.web.oversight;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import java.time.LocalDate;
import java.util.UUID;
import org.hoodkeeper.kernel.AccountId;
import org.jspecify.annotations.Nullable;

/** Who answers for a finding, and until when. */
public record AssignForm(
        @NotBlank @Nullable String owner, @NotNull @Nullable LocalDate dueOn) {

    @Nullable AccountId account() {
        try {
            return owner == null || owner.isBlank() ? null : new AccountId(UUID.fromString(owner));
        } catch (IllegalArgumentException notAnId) {
            return null;
        }
    }
}
