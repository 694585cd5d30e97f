package org.hoodkeeper.web.store;

import jakarta.validation.constraints.NotNull;
import java.math.BigDecimal;
import java.time.LocalDateTime;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** What was washed and disinfected, with what and for how long. */
public record CleaningForm(
        @NotNull Cleaning.@Nullable Method method,
        @Nullable String product,
        @Nullable BigDecimal strength,
        @Nullable Integer wetSeconds,
        @Nullable BigDecimal celsius,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {}
