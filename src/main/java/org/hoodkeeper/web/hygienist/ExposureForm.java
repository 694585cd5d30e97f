package org.hoodkeeper.web.hygienist;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.math.BigDecimal;
import java.time.LocalDateTime;
import java.util.Objects;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.hoodkeeper.web.sheet.YesNo;
import org.jspecify.annotations.Nullable;

/** The result of a sample. */
record ExposureForm(
        @NotBlank @Size(max = 120) @Nullable String substance,
        @NotNull @Nullable BigDecimal value,
        @NotBlank @Size(max = 120) @Nullable String unit,
        @NotNull @Nullable YesNo belowDetection,
        @Nullable Integer minutes,
        @Size(max = 120) @Nullable String method,
        @Nullable String person,
        @Size(max = 120) @Nullable String laboratory,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    ExposureResult toFact() {
        return new ExposureResult(
                Objects.requireNonNull(value),
                Objects.requireNonNull(unit),
                YesNo.isYes(belowDetection),
                minutes,
                method,
                person,
                laboratory);
    }
}
