package org.hoodkeeper.web.store;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.math.BigDecimal;
import java.time.LocalDateTime;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** What was looked at of a delivered set; its parts are read beside. What the set does not have is not asked. */
public record AcceptanceForm(
        @Size(max = 120) @Nullable String delivery,
        @NotNull @Nullable Outcome contents,
        @NotNull @Nullable Outcome instructions,
        @NotNull @Nullable Outcome undamaged,
        @NotNull @Nullable Outcome approval,
        @Nullable Outcome battery,
        @Nullable Outcome alarms,
        @Nullable String instrument,
        @Nullable BigDecimal reading,
        @Nullable BigDecimal celsius,
        @Nullable BigDecimal hectopascals,
        @Nullable BigDecimal metres,
        @NotNull @Nullable Outcome labelled,
        @NotBlank @Size(max = 120) @Nullable String examiner,
        @Size(max = 2_000) @Nullable String note,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed, AirAtReading {

    static AcceptanceForm empty() {
        return new AcceptanceForm(
                null, null, null, null, null, null, null, null, null, null, null, null, null, null, null, null, null);
    }
}
