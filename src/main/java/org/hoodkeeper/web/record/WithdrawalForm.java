package org.hoodkeeper.web.record;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.Size;
import org.jspecify.annotations.Nullable;

/** Why a record is taken back. */
public record WithdrawalForm(
        @NotBlank @Size(max = 2_000) @Nullable String because) {}
