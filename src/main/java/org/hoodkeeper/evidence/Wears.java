package org.hoodkeeper.evidence;

import java.time.Duration;
import java.time.Instant;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Who wore which set at which task, and for how long. */
@Service
@Transactional
public class Wears {

    private final Telling telling;
    private final Known known;

    Wears(Telling telling, Known known) {
        this.telling = telling;
        this.known = known;
    }

    /** Longer than any wear: an entry whose exit was forgotten does not bar the next day. */
    private static final Duration FORGOTTEN = Duration.ofHours(24);

    /** @throws Refused {@code wear.at.inside} when the worker went in less than 24 hours before and has not come out */
    public RecordId entry(
            Author author, WorkerId worker, SetId set, TaskId task, Instant at, @Nullable String sourceId) {
        telling.take(author.site(), set, worker, task);
        Told<Wear> inside = inside(author.site(), worker, at);
        if (inside != null) {
            throw new Refused("wear.at.inside", inside.from());
        }
        return tell(author, worker, set, task, Wear.Step.ENTRY, at, null, sourceId);
    }

    /**
     * Coming out again, from the task and with the set of the entry.
     *
     * @throws Refused {@code wear.at.outside} when no entry of the last 24 hours is open
     */
    public RecordId exit(Author author, WorkerId worker, Instant at, @Nullable String sourceId) {
        telling.take(author.site(), worker);
        Told<Wear> inside = inside(author.site(), worker, at);
        if (inside == null || inside.set() == null) {
            throw new Refused("wear.at.outside", at);
        }
        Accept.wear(inside.from(), at);
        return tell(author, worker, inside.set(), inside.fact().task(), Wear.Step.EXIT, at, null, sourceId);
    }

    /** Entry and exit told together. @throws Refused {@code wear.until.order}, {@code wear.minutes.range} */
    public RecordId whole(
            Author author,
            WorkerId worker,
            SetId set,
            TaskId task,
            Instant from,
            Instant until,
            @Nullable String sourceId) {
        Accept.wear(from, until);
        return tell(author, worker, set, task, Wear.Step.WHOLE, from, until, sourceId);
    }

    /** The entry that is open at an instant: the worker is in there. */
    @Transactional(readOnly = true)
    public @Nullable Told<Wear> inside(SiteId site, WorkerId worker, Instant at) {
        Told<Wear> last = known.inForce(site, Wear.class, Kind.WEAR, worker, at);
        boolean out = last == null
                || last.fact().step() != Wear.Step.ENTRY
                || !last.from().plus(FORGOTTEN).isAfter(at);
        return out ? null : last;
    }

    private RecordId tell(
            Author author,
            WorkerId worker,
            SetId set,
            TaskId task,
            Wear.Step step,
            Instant from,
            @Nullable Instant until,
            @Nullable String sourceId) {
        Draft draft = Draft.of(new Wear(task, step), worker, from)
                .item(set)
                .until(until)
                .source(sourceId);
        return telling.tell(author, draft, set, worker, task);
    }
}
