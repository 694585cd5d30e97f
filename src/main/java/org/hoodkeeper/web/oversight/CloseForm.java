package org.hoodkeeper.web.oversight;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.Size;
import org.jspecify.annotations.Nullable;

/** What was done about a finding. */
public record CloseForm(
        @NotBlank @Size(max = 2_000) @Nullable String action) {}
