package org.hoodkeeper.web.store;

import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.Objects;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** An instrument came back from calibration. */
public record CalibrationForm(
        @NotNull @Nullable Outcome outcome,
        @NotNull @Nullable AsFound asFound,
        @Nullable BigDecimal asFoundFactor,
        @NotNull @Nullable BigDecimal factor,
        @Nullable BigDecimal uncertainty,
        @NotNull @Nullable BigDecimal celsius,
        @NotNull @Nullable BigDecimal hectopascals,
        @NotNull @Nullable LocalDate lastDay,
        @Size(max = 120) @Nullable String certificate,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    /** How it measured when it came in. */
    enum AsFound {
        IN_TOLERANCE,
        OUT_OF_TOLERANCE
    }

    Calibration toFact() {
        return new Calibration(
                Objects.requireNonNull(outcome),
                asFound == AsFound.IN_TOLERANCE,
                Objects.requireNonNull(factor),
                uncertainty,
                Objects.requireNonNull(celsius),
                Objects.requireNonNull(hectopascals),
                Objects.requireNonNull(lastDay),
                certificate,
                asFoundFactor);
    }
}
