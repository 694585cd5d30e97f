package org.hoodkeeper.evidence;

import java.time.Instant;
import java.util.List;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.LegalHold;
import org.hoodkeeper.facts.LegalHold.Step;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/** Holds that keep every record about a person, a set, a task or the whole site from being erased, until lifted. */
@Service
@Transactional
public class LegalHolds {

    private final Telling telling;
    private final Known known;
    private final JdbcTemplate jdbc;

    LegalHolds(Telling telling, Known known, JdbcTemplate jdbc) {
        this.telling = telling;
        this.known = known;
        this.jdbc = jdbc;
    }

    /** Until the transaction ends, nobody else on the site places or lifts a hold, or erases. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void alone(SiteId site) {
        jdbc.query("select pg_advisory_xact_lock(hashtextextended('retention ' || ?, 0))", row -> {}, site.toString());
    }

    /**
     * @param on a worker, a set, a task or the site itself
     * @throws Refused {@code legalHold.reason.missing}
     */
    public RecordId place(Author author, Id on, @Nullable String reason, Instant at, @Nullable String sourceId) {
        alone(author.site());
        LegalHold hold = new LegalHold(Step.PLACED, reason);
        return telling.tell(author, Draft.of(hold, on, at).source(sourceId), on);
    }

    /**
     * Lifts one hold; what another still lies on stays held.
     *
     * @throws NotFound {@code record.unknown} when no such hold was placed
     * @throws Refused {@code legalHold.placed.lifted} when it has been lifted, {@code legalHold.at.early} before it was placed,
     *     {@code legalHold.reason.missing}
     */
    public RecordId lift(
            Author author, RecordId placed, @Nullable String reason, Instant at, @Nullable String sourceId) {
        alone(author.site());
        Told<LegalHold> told = known.record(author.site(), LegalHold.class, Kind.LEGAL_HOLD, placed);
        if (told.fact().step() != Step.PLACED) {
            throw new NotFound("record.unknown", placed);
        }
        if (known.isDone(author.site(), Kind.LEGAL_HOLD, placed, Step.RELEASED)) {
            throw new Refused("legalHold.placed.lifted", told.from());
        }
        if (at.isBefore(told.from())) {
            throw new Refused("legalHold.at.early", at, told.from());
        }
        LegalHold lifted = new LegalHold(Step.RELEASED, reason);
        Draft draft = new Draft(lifted, told.subject(), placed.value(), null, at, null, null, null, sourceId);
        return telling.tell(author, draft);
    }

    /** Every hold that nothing has lifted, oldest first; reasons left out. */
    @Transactional(readOnly = true)
    public List<Told<LegalHold>> open(SiteId site) {
        return known.open(site, LegalHold.class, Kind.LEGAL_HOLD, Step.PLACED, Step.RELEASED);
    }
}
