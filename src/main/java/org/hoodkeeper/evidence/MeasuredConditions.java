package org.hoodkeeper.evidence;

import java.time.Instant;
import org.hoodkeeper.facts.MeasuredCondition;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Conditions measured at a task on the day, such as heat. */
@Service
@Transactional
public class MeasuredConditions {

    private final Telling telling;

    MeasuredConditions(Telling telling) {
        this.telling = telling;
    }

    /** @throws Refused when its shape is wrong: {@link Accept#fact}; {@code ledger.future} when it lies ahead */
    public RecordId record(
            Author author, TaskId task, MeasuredCondition condition, Instant at, @Nullable String sourceId) {
        return telling.tell(author, Draft.of(condition, task, at).source(sourceId), task);
    }
}
