package org.hoodkeeper.evidence;

import java.time.Instant;
import org.hoodkeeper.facts.Observation;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What was seen on a worker, at the seal or on the round. */
@Service
@Transactional
public class Observations {

    private final Telling telling;

    Observations(Telling telling) {
        this.telling = telling;
    }

    /** @throws Refused when its shape is wrong: {@link Accept#fact}; {@code ledger.future} when it lies ahead */
    public RecordId record(
            Author author, WorkerId worker, Observation observation, Instant at, @Nullable String sourceId) {
        return telling.tell(author, Draft.of(observation, worker, at).source(sourceId), worker);
    }
}
