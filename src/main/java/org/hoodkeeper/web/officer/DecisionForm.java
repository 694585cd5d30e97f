package org.hoodkeeper.web.officer;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.Size;
import java.time.LocalDateTime;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** What the site decides where the law leaves it open. */
public record DecisionForm(
        @NotBlank @Nullable String value,
        @Size(max = 80) @Nullable String thing,
        @NotBlank @Size(max = 120) @Nullable String owner,
        @NotBlank @Size(max = 2000) @Nullable String reason,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {}
