package org.hoodkeeper.web.hygienist;

import jakarta.validation.constraints.NotNull;
import java.math.BigDecimal;
import java.time.LocalDateTime;
import java.util.Objects;
import org.hoodkeeper.facts.MeasuredCondition;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** Heat measured at a task. */
public record ConditionForm(
        @NotNull @Nullable BigDecimal value,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence) implements Timed {

    MeasuredCondition toFact() {
        return new MeasuredCondition(MeasuredCondition.Quantity.WBGT, Objects.requireNonNull(value));
    }
}
