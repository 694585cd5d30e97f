package org.hoodkeeper.evidence;

import java.time.Instant;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SupplyId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Tests of breathing-air supplies. */
@Service
@Transactional
public class AirTests {

    private final Telling telling;

    AirTests(Telling telling) {
        this.telling = telling;
    }

    /** @throws Refused when its shape is wrong: {@link Accept#fact}; {@code ledger.future} when it lies ahead */
    public RecordId record(Author author, SupplyId supply, AirTest test, Instant at, @Nullable String sourceId) {
        return telling.tell(author, Draft.of(test, supply, at).source(sourceId), supply);
    }
}
