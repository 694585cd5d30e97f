package org.hoodkeeper.web.health;

import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.MedicalOutcome.Result;
import org.hoodkeeper.facts.MedicalOutcome.WorkRate;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.sheet.Timed;
import org.hoodkeeper.web.sheet.YesNo;
import org.jspecify.annotations.Nullable;

/** The outcome of a medical evaluation. */
public record MedicalForm(
        @NotNull @Nullable Result result,
        List<InterfaceType> interfaces,
        @Nullable Integer maxWearMinutes,
        @Nullable BigDecimal maxWbgt,
        @Nullable WorkRate maxWorkRate,
        @NotNull @Nullable YesNo neverAlone,
        @Nullable LocalDate reviewOn,
        @Size(max = 120) @Nullable String organisation,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    public MedicalForm {
        interfaces = Choice.made(interfaces);
    }

    MedicalOutcome toFact() {
        return new MedicalOutcome(
                Objects.requireNonNull(result),
                Set.copyOf(interfaces),
                maxWearMinutes,
                maxWbgt,
                maxWorkRate,
                YesNo.isYes(neverAlone),
                reviewOn,
                organisation);
    }
}
