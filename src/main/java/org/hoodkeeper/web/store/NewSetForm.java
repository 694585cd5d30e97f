package org.hoodkeeper.web.store;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.Size;
import java.time.LocalDateTime;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** A set that is taken into the store. */
public record NewSetForm(
        @NotBlank @Size(max = 30) @Nullable String label,
        @NotBlank @Nullable String model,
        @NotBlank @Size(max = 40) @Nullable String size,
        @NotBlank @Size(max = 40) @Nullable String sealRevision,
        @Nullable String supply,
        @Size(max = 120) @Nullable String store,
        @Size(max = 120) @Nullable String serial,
        @Nullable Boolean emergency,
        @NotBlank @Size(max = 120) @Nullable String delivery,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    boolean isForEmergencies() {
        return Boolean.TRUE.equals(emergency);
    }
}
