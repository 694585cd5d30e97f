package org.hoodkeeper.web.store;

import jakarta.validation.constraints.Size;
import java.time.LocalDateTime;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** Nobody knows where the set is. */
public record MissingForm(
        @Size(max = 2000) @Nullable String note,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence) implements Timed {}
