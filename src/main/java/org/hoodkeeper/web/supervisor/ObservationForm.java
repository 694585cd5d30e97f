package org.hoodkeeper.web.supervisor;

import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.time.LocalDateTime;
import java.util.Objects;
import org.hoodkeeper.facts.Observation;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** What somebody saw on a worker. */
public record ObservationForm(
        @NotNull Observation.@Nullable Seen seen,
        @Size(max = 2000) @Nullable String note,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    Observation toFact() {
        return new Observation(Objects.requireNonNull(seen), note);
    }
}
