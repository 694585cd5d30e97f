package org.hoodkeeper.evidence;

import java.time.Instant;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Trainings of workers, each on one model. */
@Service
@Transactional
public class Trainings {

    private final Telling telling;
    private final Kit kit;

    Trainings(Telling telling, Kit kit) {
        this.telling = telling;
        this.kit = kit;
    }

    /**
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code ledger.future} when it lies ahead
     * @throws NotFound {@code model.unknown}
     */
    public RecordId record(
            Author author, WorkerId worker, ModelId model, Training training, Instant at, @Nullable String sourceId) {
        String code = kit.model(author.site(), model).code();
        return telling.tell(author, Draft.of(training, worker, at).scope(code).source(sourceId), worker);
    }
}
