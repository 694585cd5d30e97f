package org.hoodkeeper.web.trainer;

import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.time.LocalDateTime;
import java.util.Objects;
import org.hoodkeeper.facts.Booking;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** A seat for a worker. */
public record BookingForm(
        @NotNull @Nullable What what,
        @Nullable String model,
        @Size(max = 2000) @Nullable String lateBecause,
        @NotNull @Nullable LocalDateTime at,
        @Nullable Occurrence atOccurrence)
        implements Timed {

    /** What can be booked. */
    enum What {
        TRAINING(Kind.TRAINING),
        FIT_TEST(Kind.FIT_TEST),
        MEDICAL_OUTCOME(Kind.MEDICAL_OUTCOME);

        private final Kind kind;

        What(Kind kind) {
            this.kind = kind;
        }
    }

    Booking toFact() {
        return new Booking(Objects.requireNonNull(what).kind, lateBecause);
    }
}
