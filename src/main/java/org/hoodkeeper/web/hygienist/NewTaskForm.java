package org.hoodkeeper.web.hygienist;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.Size;
import org.jspecify.annotations.Nullable;

/** A task that comes on the site's list; what is in its air is said by its assessment. */
public record NewTaskForm(
        @NotBlank @Size(max = 30) @Nullable String code) {}
