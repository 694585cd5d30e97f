package org.hoodkeeper.evidence;

import java.time.Instant;
import java.time.LocalDate;
import org.hoodkeeper.facts.PurifierTag;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SupplyId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Changes of the purifiers of breathing-air supplies, as their tags say. */
@Service
@Transactional
public class PurifierTags {

    private final Telling telling;
    private final Known known;

    PurifierTags(Telling telling, Known known) {
        this.telling = telling;
        this.known = known;
    }

    /**
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code purifier.nextOn.before} when it is due again before it
     *     was changed; {@code ledger.future} when it lies ahead
     */
    public RecordId record(Author author, SupplyId supply, PurifierTag tag, Instant at) {
        LocalDate day = Days.of(at, known.zone(author.site()));
        if (tag.nextOn() != null && tag.nextOn().isBefore(day)) {
            throw new Refused("purifier.nextOn.before", tag.nextOn(), day);
        }
        return telling.tell(author, Draft.of(tag, supply, at), supply);
    }
}
