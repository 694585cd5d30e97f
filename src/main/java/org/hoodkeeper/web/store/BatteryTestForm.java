package org.hoodkeeper.web.store;

import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.time.LocalDateTime;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** A battery was charged full and run to the alarm: hours and minutes apart, as a watch shows them. */
public record BatteryTestForm(
        @NotNull @Min(0) @Max(48) @Nullable Integer hours,
        @NotNull @Min(0) @Max(59) @Nullable Integer minutes,
        @NotNull @Nullable Filter filter,
        @Size(max = 60) @Nullable String serial,
        @NotBlank @Size(max = 120) @Nullable String tester,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    /** What it ran against. */
    enum Filter {
        LOADED,
        CLEAN
    }

    int ran() {
        return (hours == null ? 0 : hours) * 60 + (minutes == null ? 0 : minutes);
    }
}
