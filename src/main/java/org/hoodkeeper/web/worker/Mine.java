package org.hoodkeeper.web.worker;

import java.time.Instant;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Custodies;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.kit.KitSet;
import org.hoodkeeper.people.People;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.store.Bench;
import org.hoodkeeper.store.ShelfSet;
import org.springframework.stereotype.Component;

/** What is the reader's own: who they are here, and what they have in hand. Somebody else's looks like nothing at all. */
@Component
class Mine {

    private final People people;
    private final Kit kit;
    private final Custodies custodies;
    private final Bench bench;
    private final KnowledgeClock clock;

    Mine(People people, Kit kit, Custodies custodies, Bench bench, KnowledgeClock clock) {
        this.people = people;
        this.kit = kit;
        this.custodies = custodies;
        this.bench = bench;
        this.clock = clock;
    }

    Instant now() {
        return clock.now();
    }

    /** @throws NotFound {@code worker.unknown} for an account that is nobody on the site's list */
    Worker self(Visit visit) {
        WorkerId id = visit.viewer().worker();
        if (id == null) {
            throw new NotFound("worker.unknown", visit.account().name());
        }
        return people.get(visit.viewer().site(), id);
    }

    /** @throws NotFound {@code set.notInHand} for a set that the reader does not have, or that is not on the site */
    ShelfSet inHand(Visit visit, String label) {
        SiteId site = visit.viewer().site();
        Instant now = now();
        KitSet set = kit.findSet(site, label).orElseThrow(() -> new NotFound("set.notInHand", label));
        if (!custodies.inHand(site, self(visit).id(), now).contains(set.id())) {
            throw new NotFound("set.notInHand", label);
        }
        return bench.one(site, label, now);
    }
}
