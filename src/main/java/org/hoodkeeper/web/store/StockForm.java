package org.hoodkeeper.web.store;

import jakarta.validation.constraints.NotBlank;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.time.LocalDate;
import java.time.LocalDateTime;
import org.hoodkeeper.facts.StockUse;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** Something taken in, taken out or counted. Days and supplier belong to a delivery, the use to a withdrawal. */
public record StockForm(
        @NotBlank @Size(max = 40) @Nullable String item,
        @Size(max = 60) @Nullable String lot,
        @NotNull @Nullable Integer pieces,
        StockUse.@Nullable Use use,
        @Nullable LocalDate lastDay,
        @Nullable LocalDate orderedOn,
        @Size(max = 120) @Nullable String delivery,
        @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    static StockForm of(@Nullable String item, @Nullable String lot) {
        return new StockForm(item, lot, null, null, null, null, null, null, null);
    }

    /** None for pieces without one. */
    @Nullable String lotOrNone() {
        return lot == null || lot.isBlank() ? null : lot.strip();
    }

    String code() {
        return item == null ? "" : item.strip();
    }

    int piecesOrNone() {
        return pieces == null ? 0 : pieces;
    }
}
