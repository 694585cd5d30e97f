package org.hoodkeeper.web.oversight;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.Size;
import org.jspecify.annotations.Nullable;

/** What was done, so that a look-back is over. */
public record LookBackCloseForm(
        @NotBlank @Size(max = 2_000) @Nullable String done) {}
