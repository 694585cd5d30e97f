package org.hoodkeeper.evidence;

import java.time.Instant;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Thorough examinations and tests of sets. */
@Service
@Transactional
public class Examinations {

    private final Telling telling;
    private final Known known;

    Examinations(Telling telling, Known known) {
        this.telling = telling;
        this.known = known;
    }

    /**
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code examination.reading.missing} when a set with a flow
     *     passed without a measured flow; {@code ledger.future} when it lies ahead
     */
    public RecordId record(Author author, SetId set, Examination examination, Instant at, @Nullable String sourceId) {
        ModelData model = known.modelOf(author.site(), set, at);
        if (model != null
                && model.type().hasFlow()
                && examination.outcome() == Outcome.PASS
                && examination.reading() == null) {
            throw new Refused("examination.reading.missing", model.name());
        }
        Draft draft = Draft.of(examination, set, at).source(sourceId);
        return examination.indicator() == null
                ? telling.tell(author, draft, set)
                : telling.tell(author, draft, set, examination.indicator());
    }
}
