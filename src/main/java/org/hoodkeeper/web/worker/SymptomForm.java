package org.hoodkeeper.web.worker;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.Size;
import java.time.LocalDateTime;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** A report of symptoms, in the words of whoever feels them. */
public record SymptomForm(
        @NotBlank @Size(max = 2000) @Nullable String note,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {}
