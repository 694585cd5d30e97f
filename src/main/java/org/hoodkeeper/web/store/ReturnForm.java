package org.hoodkeeper.web.store;

import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.time.LocalDateTime;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** A set comes back. */
public record ReturnForm(
        @NotNull @Nullable Worn worn,
        @Size(max = 2000) @Nullable String note,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    /** Whether it was worn while it was out. */
    enum Worn {
        WORN,
        UNWORN,
        UNKNOWN
    }

    /** Unknown counts as worn. */
    @Nullable Boolean wornOrUnknown() {
        return worn == null || worn == Worn.UNKNOWN ? null : worn == Worn.WORN;
    }
}
