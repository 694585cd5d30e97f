package org.hoodkeeper.evidence;

import java.time.Instant;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Hold;
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
    private final Holds holds;

    Cleanings(Telling telling, Holds holds) {
        this.telling = telling;
        this.holds = holds;
    }

    /**
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code ledger.future} when it lies ahead; {@code
     *     cleaning.set.impounded} while the set is kept as found
     */
    public RecordId record(Author author, SetId set, Cleaning cleaning, Instant at, @Nullable String sourceId) {
        telling.take(author.site(), set);
        if (holds.open(author.site(), set).stream().anyMatch(told -> told.fact().why() == Hold.Why.IMPOUNDED)) {
            throw new Refused("cleaning.set.impounded");
        }
        return telling.tell(author, Draft.of(cleaning, set, at).source(sourceId), set);
    }
}
