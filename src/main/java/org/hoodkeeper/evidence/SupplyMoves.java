package org.hoodkeeper.evidence;

import java.time.Instant;
import org.hoodkeeper.facts.SupplyMove;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SupplyId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Moves of air supplies, or of what surrounds their intake. */
@Service
@Transactional
public class SupplyMoves {

    private final Telling telling;

    SupplyMoves(Telling telling) {
        this.telling = telling;
    }

    /** @throws Refused when its shape is wrong: {@link Accept#fact}; {@code ledger.future} when it lies ahead */
    public RecordId record(Author author, SupplyId supply, SupplyMove move, Instant at, @Nullable String sourceId) {
        return telling.tell(author, Draft.of(move, supply, at).source(sourceId), supply);
    }
}
