package org.hoodkeeper.web.store;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.Size;
import java.time.LocalDateTime;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** A supply was moved, or what is near its intake changed. */
public record MoveForm(
        @NotBlank @Size(max = 120) @Nullable String place,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {}
