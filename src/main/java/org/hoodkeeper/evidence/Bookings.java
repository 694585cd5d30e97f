package org.hoodkeeper.evidence;

import java.time.Instant;
import org.hoodkeeper.facts.Booking;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Seats booked for workers: refresher, fit test, medical evaluation. */
@Service
@Transactional
public class Bookings {

    private final Telling telling;

    Bookings(Telling telling) {
        this.telling = telling;
    }

    /**
     * @param about the model's code or the variant that it will be about; none where it is about the person alone
     * @param at when it takes place, which may lie ahead
     * @throws Refused when its shape is wrong: {@link Accept#fact}
     */
    public RecordId record(
            Author author,
            WorkerId worker,
            Booking booking,
            @Nullable String about,
            Instant at,
            @Nullable String sourceId) {
        return telling.tell(author, Draft.of(booking, worker, at).scope(about).source(sourceId), worker);
    }
}
