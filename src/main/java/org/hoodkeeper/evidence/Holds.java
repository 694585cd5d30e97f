package org.hoodkeeper.evidence;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.LegalHold;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Holds on workers, sets, tasks, supplies and instruments: nobody wears it, breathes from it or measures with it, or the person
 * does not wear, until released.
 */
@Service
@Transactional
public class Holds {

    private final Telling telling;
    private final Known known;

    Holds(Telling telling, Known known) {
        this.telling = telling;
        this.known = known;
    }

    /**
     * @param on a worker, a set, a task, a supply or an instrument
     * @throws Refused {@code hold.reason.missing}; {@code hold.why.person} when the sort of hold does not suit what it is on;
     *     {@code hold.why.disposed} for a disposal, which has a door of its own
     */
    public RecordId place(
            Author author, Id on, Hold.Why why, @Nullable String reason, Instant at, @Nullable String sourceId) {
        Shape.present(reason, "hold.reason.missing");
        if (why == Hold.Why.DISPOSED) {
            throw new Refused("hold.why.disposed");
        }
        if ((why == Hold.Why.SUSPENDED) != (on instanceof WorkerId) && why != Hold.Why.OTHER) {
            throw new Refused("hold.why.person", why);
        }
        Hold hold = new Hold(Hold.Step.PLACED, why, reason);
        return telling.tell(author, Draft.of(hold, on, at).source(sourceId), on);
    }

    /**
     * @param on what the hold is on
     * @param placed an open hold on it
     * @throws NotFound {@code record.unknown} when no such hold was placed on it
     * @throws Refused {@code hold.placed.notAccepted} for a delivery that awaits acceptance, {@code hold.placed.recall} for one
     *     that a recall placed: it ends when the part is out, or by the safety officer's decision on the recall;
     *     {@code hold.placed.disposed} for a set that was disposed of; {@code hold.placed.released} when it has been released, {@code hold.at.early} before it was placed,
     *     {@code hold.reason.missing}
     */
    public RecordId release(
            Author author, Id on, RecordId placed, @Nullable String reason, Instant at, @Nullable String sourceId) {
        Told<Hold> hold = known.record(author.site(), Hold.class, Kind.HOLD, placed);
        if (hold.fact().why() == Hold.Why.NOT_ACCEPTED) {
            throw new Refused("hold.placed.notAccepted");
        }
        if (isOfRecall(hold)) {
            throw new Refused("hold.placed.recall");
        }
        if (isOpen(author.site(), on, Hold.Why.DISPOSED)) {
            throw new Refused("hold.placed.disposed");
        }
        return lift(author, on, placed, reason, at, sourceId);
    }

    /**
     * Disposes of a withdrawn set: it was made unusable and went to waste. Common practice, no source; the law asks only that it
     * is worn no more. It stays on record, and its label that turns up again is told as such.
     *
     * @param how how it was made unusable, and by which way it went
     * @throws Refused {@code disposal.how.missing}, {@code disposal.set.done}; {@code disposal.set.notWithdrawn} before it was
     *     withdrawn; {@code disposal.set.impounded} while it is kept as found, {@code disposal.set.legalHold} while a legal hold
     *     lies on it: it is evidence until the safety officer lets it go
     */
    public RecordId dispose(Author author, SetId set, @Nullable String how, Instant at) {
        Shape.present(how, "disposal.how.missing");
        telling.take(author.site(), set);
        if (isOpen(author.site(), set, Hold.Why.DISPOSED)) {
            throw new Refused("disposal.set.done");
        }
        if (!isOpen(author.site(), set, Hold.Why.WITHDRAWN)) {
            throw new Refused("disposal.set.notWithdrawn");
        }
        if (isOpen(author.site(), set, Hold.Why.IMPOUNDED)) {
            throw new Refused("disposal.set.impounded");
        }
        if (known
                .open(author.site(), LegalHold.class, Kind.LEGAL_HOLD, LegalHold.Step.PLACED, LegalHold.Step.RELEASED)
                .stream()
                .anyMatch(told -> told.subject().equals(set.value()))) {
            throw new Refused("disposal.set.legalHold");
        }
        return telling.tell(author, Draft.of(new Hold(Hold.Step.PLACED, Hold.Why.DISPOSED, how), set, at), set);
    }

    /**
     * What is kept as found is left as it is: not cleaned, not mended, no part changed. What was done before that is a fact.
     *
     * @throws Refused with that code
     */
    void requireNotImpounded(SiteId site, SetId set, Instant at, String code) {
        if (open(site, set).stream()
                .anyMatch(told ->
                        told.fact().why() == Hold.Why.IMPOUNDED && !told.from().isAfter(at))) {
            throw new Refused(code);
        }
    }

    private boolean isOpen(SiteId site, Id on, Hold.Why why) {
        return open(site, on).stream().anyMatch(told -> told.fact().why() == why);
    }

    /** Releases any sort of hold: for what frees it by its own record. */
    RecordId lift(
            Author author, Id on, RecordId placed, @Nullable String reason, Instant at, @Nullable String sourceId) {
        Shape.present(reason, "hold.reason.missing");
        telling.take(author.site(), on);
        Told<Hold> told = known.record(author.site(), Hold.class, Kind.HOLD, placed);
        if (told.fact().step() != Hold.Step.PLACED || !told.subject().equals(on.value())) {
            throw new NotFound("record.unknown", placed);
        }
        if (known.isDone(author.site(), Kind.HOLD, placed, Hold.Step.RELEASED)) {
            throw new Refused("hold.placed.released", told.from());
        }
        if (at.isBefore(told.from())) {
            throw new Refused("hold.at.early", at, told.from());
        }
        Hold hold = new Hold(Hold.Step.RELEASED, told.fact().why(), reason);
        return telling.tell(author, Draft.of(hold, on, at).item(placed).source(sourceId), on);
    }

    /** A set that a recall means. @param recall the record of the recall @param from when it bars; may lie ahead */
    public record Barred(
            SetId set, RecordId recall, @Nullable String reason, Instant from) {}

    /** Holds sets for recalls, as one entry; their rows are locked already. */
    public void recall(Author author, List<Barred> barred) {
        if (barred.isEmpty()) {
            return;
        }
        List<Draft> drafts = barred.stream()
                .map(one -> Draft.of(new Hold(Hold.Step.PLACED, Hold.Why.RECALL, one.reason()), one.set(), one.from())
                        .scope(one.recall().toString()))
                .toList();
        telling.tell(author, drafts);
    }

    /** Ends what a recall placed: from {@code at} on, or as if it had never been where it had not begun to bar by then. */
    public void recallOver(Author author, Told<Hold> placed, String reason, Instant at) {
        SetId set = new SetId(placed.subject());
        if (at.isBefore(placed.from())) {
            Draft back = Draft.of(placed.fact(), set, placed.from())
                    .scope(placed.scope())
                    .correcting(placed.id(), reason);
            telling.takeBack(author, back, set);
        } else {
            lift(author, set, placed.id(), reason, at, null);
        }
    }

    /** The holds that recalls placed and nothing has ended, such as bar from a later day included; reasons left out. */
    @Transactional(readOnly = true)
    public List<Told<Hold>> ofRecalls(SiteId site) {
        return known.open(site, Hold.class, Kind.HOLD, Hold.Step.PLACED, Hold.Step.RELEASED).stream()
                .filter(Holds::isOfRecall)
                .toList();
    }

    private static boolean isOfRecall(Told<Hold> told) {
        return told.fact().why() == Hold.Why.RECALL && told.scope() != null;
    }

    /** Whether a hold lay on something at an instant, as known now: placed by then, and not released by then. */
    @Transactional(readOnly = true)
    public boolean isHeld(SiteId site, Id on, Instant at) {
        return Hold.lay(known.newest(site, Hold.class, Kind.HOLD, on), at);
    }

    /** The holds on something that nothing has released, newest first; reasons left out. */
    @Transactional(readOnly = true)
    public List<Told<Hold>> open(SiteId site, Id on) {
        List<Told<Hold>> all = known.newest(site, Hold.class, Kind.HOLD, on);
        List<UUID> released = all.stream()
                .filter(told -> told.fact().step() == Hold.Step.RELEASED)
                .map(Told::item)
                .toList();
        return all.stream()
                .filter(told -> told.fact().step() == Hold.Step.PLACED)
                .filter(told -> !released.contains(told.id().value()))
                .toList();
    }
}
