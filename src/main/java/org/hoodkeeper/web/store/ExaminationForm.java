package org.hoodkeeper.web.store;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.math.BigDecimal;
import java.time.LocalDateTime;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** A thorough examination and test: what ACoP L5, 184 asks to be recorded. */
public record ExaminationForm(
        @NotNull @Nullable Outcome outcome,
        @Nullable BigDecimal reading,
        @Nullable String indicator,
        @NotBlank @Size(max = 120) @Nullable String examiner,
        @NotBlank @Size(max = 2000) @Nullable String note,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {}
