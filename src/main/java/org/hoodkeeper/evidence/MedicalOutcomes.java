package org.hoodkeeper.evidence;

import java.time.Instant;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Outcomes of medical evaluations: ability and limits, never a diagnosis. */
@Service
@Transactional
public class MedicalOutcomes {

    private final Telling telling;
    private final Known known;

    MedicalOutcomes(Telling telling, Known known) {
        this.telling = telling;
        this.known = known;
    }

    /**
     * @throws Refused when its shape is wrong: {@link Accept#fact}, {@link Accept#reviewDay}; {@code ledger.future} when it
     *     lies ahead
     */
    public RecordId record(
            Author author, WorkerId worker, MedicalOutcome outcome, Instant at, @Nullable String sourceId) {
        Accept.reviewDay(outcome, Days.of(at, known.zone(author.site())));
        return telling.tell(author, Draft.of(outcome, worker, at).source(sourceId), worker);
    }
}
