package org.hoodkeeper.evidence;

import java.time.Instant;
import java.util.List;
import java.util.Set;
import org.hoodkeeper.facts.Acceptance;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Whether a delivered set is taken in. Until it is, nobody gets it. */
@Service
@Transactional
public class Acceptances {

    private final Telling telling;
    private final Holds holds;
    private final ApplicationEventPublisher events;

    Acceptances(Telling telling, Holds holds, ApplicationEventPublisher events) {
        this.telling = telling;
        this.holds = holds;
        this.events = events;
    }

    /** Bars a set that has come in and has not been looked at. @param delivery supplier and delivery note */
    public RecordId await(Author author, SetId set, String delivery, Instant at) {
        RecordId hold = holds.place(author, set, Hold.Why.NOT_ACCEPTED, delivery, at, null);
        events.publishEvent(new PartsTold(author, Set.of(set)));
        return hold;
    }

    /**
     * Records how it came out. A set that is accepted is free of its hold; one that is not stays held.
     *
     * @throws Refused {@code acceptance.done} when it does not await acceptance
     */
    public RecordId record(Author author, SetId set, Acceptance acceptance, Instant at) {
        telling.take(author.site(), set);
        List<Told<Hold>> awaiting = holds.open(author.site(), set).stream()
                .filter(told -> told.fact().why() == Hold.Why.NOT_ACCEPTED)
                .toList();
        if (awaiting.isEmpty()) {
            throw new Refused("acceptance.done");
        }
        RecordId recorded = telling.tell(author, Draft.of(acceptance, set, at), set);
        if (acceptance.accepted()) {
            String because = acceptance.delivery() == null ? recorded.toString() : acceptance.delivery();
            awaiting.forEach(told -> holds.lift(author, set, told.id(), because, at, null));
        }
        return recorded;
    }
}
