package org.hoodkeeper.web.worker;

import jakarta.validation.constraints.NotBlank;
import java.time.LocalDateTime;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** Somebody goes in. */
public record WearEntryForm(
        @NotBlank @Nullable String set,
        @NotBlank @Nullable String task,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {}
