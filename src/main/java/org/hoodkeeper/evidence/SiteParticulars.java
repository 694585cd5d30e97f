package org.hoodkeeper.evidence;

import java.time.Instant;
import org.hoodkeeper.facts.Particulars;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Who the employer is and who made each model, as certificates name them. */
@Service
@Transactional
public class SiteParticulars {

    private final Telling telling;
    private final Kit kit;

    SiteParticulars(Telling telling, Kit kit) {
        this.telling = telling;
        this.kit = kit;
    }

    /**
     * @param at from when they hold; earlier certificates keep the earlier ones
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code particulars.makers.unknown} for a model that is not on
     *     the site's list; {@code ledger.future} when it lies ahead
     */
    public RecordId record(Author author, Particulars particulars, Instant at) {
        for (String code : particulars.makers().keySet()) {
            try {
                kit.model(author.site(), code);
            } catch (NotFound unknown) {
                throw new Refused("particulars.makers.unknown", code);
            }
        }
        return telling.tell(author, Draft.of(particulars, author.site(), at));
    }
}
