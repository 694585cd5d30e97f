package org.hoodkeeper.web.trainer;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.math.BigDecimal;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.Variant;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.hoodkeeper.web.sheet.YesNo;
import org.jspecify.annotations.Nullable;

/** A fit test on one exact variant. */
public record FitTestForm(
        @NotBlank @Nullable String model,
        @NotBlank @Size(max = 40) @Nullable String size,
        @NotBlank @Size(max = 40) @Nullable String sealRevision,
        @NotNull FitTest.@Nullable Method method,
        @Size(max = 400) @Nullable String exercises,
        @NotNull @Nullable Outcome outcome,
        @Nullable YesNo negativeMode,
        @Size(max = 120) @Nullable String protocol,
        @Size(max = 120) @Nullable String tester,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    /** @throws org.hoodkeeper.kernel.Refused when a part is empty or holds a slash */
    Variant variant() {
        return new Variant(
                Objects.requireNonNull(model), Objects.requireNonNull(size), Objects.requireNonNull(sealRevision));
    }

    @Nullable Boolean saysNegativeMode() {
        return negativeMode == null ? null : negativeMode == YesNo.YES;
    }

    FitTest toFact(List<BigDecimal> factors, boolean inNegativeMode) {
        return new FitTest(
                Objects.requireNonNull(method),
                protocol,
                factors,
                Objects.requireNonNull(outcome),
                inNegativeMode,
                tester);
    }
}
