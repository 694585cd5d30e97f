package org.hoodkeeper.evidence;

import java.time.Instant;
import org.hoodkeeper.facts.Posting;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Who is posted to which task, and until when. */
@Service
@Transactional
public class Postings {

    private final Telling telling;

    Postings(Telling telling) {
        this.telling = telling;
    }

    /**
     * @param until when it ends; none where no end is set yet
     * @throws Refused {@code posting.until.order}
     */
    public RecordId post(
            Author author,
            WorkerId worker,
            TaskId task,
            Instant from,
            @Nullable Instant until,
            @Nullable String sourceId) {
        Accept.posting(from, until);
        Draft draft = Draft.of(new Posting(Posting.Change.POSTED), worker, from)
                .item(task)
                .until(until)
                .source(sourceId);
        return telling.tell(author, draft, worker, task);
    }

    /** Ends every posting of that worker to that task, from an instant on. */
    public RecordId end(Author author, WorkerId worker, TaskId task, Instant at, @Nullable String sourceId) {
        Draft draft = Draft.of(new Posting(Posting.Change.ENDED), worker, at)
                .item(task)
                .source(sourceId);
        return telling.tell(author, draft, worker, task);
    }
}
