package org.hoodkeeper.web.trainer;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.time.LocalDateTime;
import java.util.Objects;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.hoodkeeper.web.sheet.YesNo;
import org.jspecify.annotations.Nullable;

/** A training on one model. */
public record TrainingForm(
        @NotBlank @Nullable String model,
        @NotNull @Nullable Outcome outcome,
        @NotNull @Nullable YesNo demonstrated,
        @Size(max = 120) @Nullable String contentVersion,
        @NotNull @Nullable YesNo external,
        @Size(max = 120) @Nullable String trainer,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    Training toFact() {
        return new Training(
                Objects.requireNonNull(outcome),
                YesNo.isYes(demonstrated),
                contentVersion,
                YesNo.isYes(external),
                trainer);
    }
}
