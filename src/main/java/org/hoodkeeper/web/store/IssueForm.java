package org.hoodkeeper.web.store;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import org.jspecify.annotations.Nullable;

/** Who is to have the set, for which task and how long. */
public record IssueForm(
        @NotBlank @Nullable String worker,
        @NotBlank @Nullable String task,
        @NotNull @Nullable Integer hours) {}
