package org.hoodkeeper.web.recall;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.Size;
import java.time.LocalDateTime;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** Why a recall does not bar a set whose part is in. */
public record RecallDecisionForm(
        @NotBlank @Size(max = 2_000) @Nullable String reason,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {}
