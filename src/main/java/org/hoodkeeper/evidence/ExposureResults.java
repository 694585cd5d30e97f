package org.hoodkeeper.evidence;

import java.time.Instant;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Results of samples taken at tasks. */
@Service
@Transactional
public class ExposureResults {

    private final Telling telling;

    ExposureResults(Telling telling) {
        this.telling = telling;
    }

    /**
     * @param substance as named in the site's limits
     * @param at when the sample was taken
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code exposure.substance.missing}; {@code ledger.future}
     */
    public RecordId record(
            Author author,
            TaskId task,
            String substance,
            ExposureResult result,
            Instant at,
            @Nullable String sourceId) {
        Shape.present(substance, "exposure.substance.missing");
        Shape.name(substance, "substance");
        return telling.tell(author, Draft.of(result, task, at).scope(substance).source(sourceId), task);
    }
}
