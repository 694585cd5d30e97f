package org.hoodkeeper.web.hygienist;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.Size;
import java.time.LocalDateTime;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** Something puts the assessment of a task in question. */
public record TriggerForm(
        @NotBlank @Size(max = 120) @Nullable String what,
        @Size(max = 2000) @Nullable String note,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {}
