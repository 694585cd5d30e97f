package org.hoodkeeper.web.store;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.time.LocalDate;
import java.time.LocalDateTime;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** A part that was fitted. */
public record PartForm(
        @NotBlank @Nullable String slot,
        @NotBlank @Size(max = 120) @Nullable String part,
        @Size(max = 120) @Nullable String lot,
        @Size(max = 120) @Nullable String serial,
        @Nullable LocalDate madeOn,
        @NotNull @Nullable Fitted fitted,
        @Size(max = 120) @Nullable String fitter,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    /** Who fitted it. */
    enum Fitted {
        TRAINED,
        UNTRAINED
    }
}
