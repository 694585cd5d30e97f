package org.hoodkeeper.web.worker;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/** Going in: with which set, to which task, until when. The page before it fills it in; nobody types it. */
public record EnterForm(
        @NotBlank @Nullable String set,
        @NotBlank @Nullable String task,
        @NotNull @Nullable Instant until) {}
