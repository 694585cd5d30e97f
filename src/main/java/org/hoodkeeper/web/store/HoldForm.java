package org.hoodkeeper.web.store;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.time.LocalDateTime;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** Nobody is to wear the set. */
public record HoldForm(
        @NotNull Hold.@Nullable Why why,
        @NotBlank @Size(max = 2000) @Nullable String reason,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {}
