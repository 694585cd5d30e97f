package org.hoodkeeper.web.hygienist;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.time.Duration;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.calculation.TimeWeightedAverage;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.web.sheet.Lists;
import org.hoodkeeper.web.sheet.Timed;
import org.hoodkeeper.web.sheet.YesNo;
import org.jspecify.annotations.Nullable;

/** The result of a sample: one value, or parts of a shift of which the value is the average. */
public record ExposureForm(
        @NotBlank @Size(max = 120) @Nullable String substance,
        @Nullable BigDecimal value,
        @Size(max = 4000) @Nullable String parts,
        @NotBlank @Size(max = 120) @Nullable String unit,
        @NotNull ExposureResult.@Nullable Period period,
        @NotNull @Nullable YesNo belowDetection,
        @Nullable Integer minutes,
        @Size(max = 120) @Nullable String method,
        @Size(max = 120) @Nullable String group,
        @Nullable String person,
        @Size(max = 120) @Nullable String laboratory,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    ExposureResult toFact(Lists lists) {
        List<ExposureResult.Part> measured = lists.lines(parts, 2, "exposure.parts.unreadable", ExposureForm::part);
        return new ExposureResult(
                value == null ? average(measured) : value,
                Objects.requireNonNull(unit),
                YesNo.isYes(belowDetection),
                minutes,
                method,
                person,
                laboratory,
                group,
                period,
                measured);
    }

    private static ExposureResult.Part part(Lists.Parts parts) {
        BigDecimal concentration = parts.figure(0);
        Integer time = parts.whole(1);
        if (concentration == null || time == null) {
            throw new Refused("exposure.parts.unreadable", parts.line());
        }
        return new ExposureResult.Part(concentration, time);
    }

    /** Over eight hours, four digits, never rounded down. */
    private static BigDecimal average(List<ExposureResult.Part> measured) {
        if (measured.isEmpty()) {
            throw new Refused("exposure.value.missing");
        }
        return TimeWeightedAverage.over8Hours(measured.stream()
                        .map(part -> new TimeWeightedAverage.Part(part.value(), Duration.ofMinutes(part.minutes())))
                        .toList())
                .round(new MathContext(4, RoundingMode.CEILING));
    }
}
