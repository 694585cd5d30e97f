package org.hoodkeeper.evidence;

import java.time.LocalDate;
import org.hoodkeeper.facts.Employment;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** When a person left the site's employment, or came back: some records are kept for years counted from the end. */
@Service
@Transactional
public class Employments {

    private final Telling telling;
    private final Known known;

    Employments(Telling telling, Known known) {
        this.telling = telling;
        this.known = known;
    }

    /**
     * Told as true from the first instant after the last day, which may lie ahead.
     *
     * @param lastDay the last day of employment, that day included
     * @throws Refused {@code employment.lastDay.missing}, {@code employment.lastDay.range}
     */
    public RecordId end(Author author, WorkerId worker, @Nullable LocalDate lastDay, @Nullable String sourceId) {
        Employment ended = new Employment(Employment.Change.ENDED, lastDay);
        Accept.fact(ended);
        if (lastDay == null) {
            throw new IllegalStateException("an end without its day is refused before");
        }
        Draft draft = Draft.of(ended, worker, Days.endOf(lastDay, known.zone(author.site())));
        return telling.tell(author, draft.source(sourceId), worker);
    }

    /** @param firstDay from when the person works here again, that day included */
    public RecordId resume(Author author, WorkerId worker, LocalDate firstDay, @Nullable String sourceId) {
        Draft draft = Draft.of(
                new Employment(Employment.Change.RESUMED, null),
                worker,
                Days.startOf(firstDay, known.zone(author.site())));
        return telling.tell(author, draft.source(sourceId), worker);
    }
}
