package org.hoodkeeper.web.officer;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.Size;
import java.time.LocalDate;
import java.time.LocalDateTime;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** Somebody who comes on the site's list, with a first posting where one is known. */
public record NewWorkerForm(
        @NotBlank @Size(max = 30) @Nullable String number,
        @NotBlank @Size(max = 120) @Nullable String name,
        @Size(max = 120) @Nullable String employer,
        @Nullable String task,
        @Nullable LocalDate lastDay,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    static NewWorkerForm empty() {
        return new NewWorkerForm(null, null, null, null, null, null, null);
    }
}
