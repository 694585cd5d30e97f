package org.hoodkeeper.web.store;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.math.BigDecimal;
import java.time.LocalDateTime;
import java.util.Objects;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** The air of a supply was tested. */
public record AirTestForm(
        @NotNull @Nullable Outcome outcome,
        @NotBlank @Size(max = 120) @Nullable String edition,
        @Nullable BigDecimal oxygenPercent,
        @Nullable BigDecimal carbonMonoxidePpm,
        @Nullable BigDecimal carbonDioxidePpm,
        @Nullable BigDecimal oilMgPerM3,
        @Nullable BigDecimal dewPointCelsius,
        @Nullable BigDecimal lowestCelsius,
        @Nullable BigDecimal uncertaintyPercent,
        @Nullable BigDecimal litresPerMinute,
        @Size(max = 120) @Nullable String tester,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    AirTest toFact() {
        return new AirTest(
                Objects.requireNonNull(outcome),
                Objects.requireNonNull(edition),
                oxygenPercent,
                carbonMonoxidePpm,
                carbonDioxidePpm,
                oilMgPerM3,
                dewPointCelsius,
                tester,
                uncertaintyPercent,
                lowestCelsius,
                litresPerMinute);
    }
}
