package org.hoodkeeper.web.oversight;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.time.LocalDateTime;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** Nothing about something may be erased. @param name its number, label or code; none for the site */
public record LegalHoldForm(
        @NotNull @Nullable About about,
        @Size(max = 120) @Nullable String name,
        @NotBlank @Size(max = 2000) @Nullable String reason,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    /** What a legal hold can lie on. */
    enum About {
        WORKER,
        SET,
        TASK,
        SITE
    }
}
