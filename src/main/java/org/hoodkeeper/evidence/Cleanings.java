package org.hoodkeeper.evidence;

import java.time.Instant;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Cleanings and disinfections of sets. */
@Service
@Transactional
public class Cleanings {

    private final Telling telling;

    Cleanings(Telling telling) {
        this.telling = telling;
    }

    /** @throws Refused when its shape is wrong: {@link Accept#fact}; {@code ledger.future} when it lies ahead */
    public RecordId record(Author author, SetId set, Cleaning cleaning, Instant at, @Nullable String sourceId) {
        return telling.tell(author, Draft.of(cleaning, set, at).source(sourceId), set);
    }
}
