package org.hoodkeeper.web.store;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.Size;
import org.jspecify.annotations.Nullable;

/** An instrument or an air supply that comes on the site's list, by the code that is stuck on it. */
public record NewThingForm(
        @NotBlank @Size(max = 30) @Nullable String code) {}
