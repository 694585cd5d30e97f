package org.hoodkeeper.web.health;

import jakarta.validation.constraints.Size;
import java.time.LocalDateTime;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** The health role has looked at a report. */
public record ReviewForm(
        @Size(max = 2000) @Nullable String note,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence) implements Timed {}
