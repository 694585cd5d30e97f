package org.hoodkeeper.evidence;

import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.SupplyId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Custodies;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Entry;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.people.People;
import org.hoodkeeper.programme.Programme;
import org.springframework.stereotype.Component;

/**
 * How every door adds: the shape is checked, everything named is found on this site, the set is locked before the worker, and
 * the ledger comes last. Whoever decides on a verdict takes the same locks in the same order.
 */
@Component
class Telling {

    private final Ledger ledger;
    private final Custodies custodies;
    private final People people;
    private final Kit kit;
    private final Programme programme;

    Telling(Ledger ledger, Custodies custodies, People people, Kit kit, Programme programme) {
        this.ledger = ledger;
        this.custodies = custodies;
        this.people = people;
        this.kit = kit;
        this.programme = programme;
    }

    /** @param about everything the draft names */
    RecordId tell(Author author, Draft draft, Id... about) {
        return tell(author, List.of(draft), about).records().get(0);
    }

    Entry tell(Author author, List<Draft> drafts, Id... about) {
        for (Draft draft : drafts) {
            Accept.fact(draft.fact());
            Accept.at(draft.from());
        }
        take(author.site(), about);
        return ledger.append(author, drafts);
    }

    /** Takes a record back that was told and never came to count. */
    void takeBack(Author author, Draft withdrawn, Id... about) {
        take(author.site(), about);
        ledger.withdraw(author, withdrawn);
    }

    /** Locks and finds, for a door that must look at other records in between. Taking twice is harmless. */
    void take(SiteId site, Id... about) {
        // by their ids, as everybody does: two storekeepers with the same sets in another order would wait for each
        // other for ever
        Stream.of(about)
                .filter(SetId.class::isInstance)
                .map(SetId.class::cast)
                .sorted(Comparator.comparing(SetId::toString))
                .forEach(set -> custodies.lock(site, set));
        for (Id id : about) {
            if (id instanceof WorkerId worker) {
                people.lock(site, worker);
            }
        }
        for (Id id : about) {
            find(site, id);
        }
    }

    private void find(SiteId site, Id id) {
        if (id instanceof TaskId task) {
            programme.task(site, task);
        } else if (id instanceof InstrumentId instrument) {
            kit.instrument(site, instrument);
        } else if (id instanceof SupplyId supply) {
            kit.supply(site, supply);
        }
    }
}
