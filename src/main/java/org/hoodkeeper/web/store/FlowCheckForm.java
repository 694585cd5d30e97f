package org.hoodkeeper.web.store;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import java.math.BigDecimal;
import java.time.LocalDateTime;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** A reading of a flow indicator. */
public record FlowCheckForm(
        @NotBlank @Nullable String instrument,
        @NotNull @Nullable BigDecimal reading,
        @Nullable BigDecimal celsius,
        @Nullable BigDecimal hectopascals,
        @Nullable BigDecimal metres,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed, AirAtReading {}
