package org.hoodkeeper.evidence;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Cleanings and disinfections of sets. */
@Service
@Transactional
public class Cleanings {

    private final Telling telling;
    private final Holds holds;
    private final Basket basket;

    Cleanings(Telling telling, Holds holds, Basket basket) {
        this.telling = telling;
        this.holds = holds;
        this.basket = basket;
    }

    /**
     * A wash over what a part bears (heat, product, contact, number of washes) is recorded, and puts the set on hold with that part named.
     *
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code ledger.future} when it lies ahead; {@code
     *     cleaning.set.impounded} while the set is kept as found
     */
    public RecordId record(Author author, SetId set, Cleaning cleaning, Instant at, @Nullable String sourceId) {
        telling.take(author.site(), set);
        holds.requireNotImpounded(author.site(), set, at, "cleaning.set.impounded");
        List<Draft> drafts = new ArrayList<>();
        drafts.add(Draft.of(cleaning, set, at).source(sourceId));
        drafts.addAll(over(author.site(), set, cleaning, at));
        return telling.tell(author, drafts, set).records().get(0);
    }

    /**
     * Whether {@link #holdAfterFile} may hold the set, asked before it is locked: by what is on record, or by a wash that somebody
     * records meanwhile.
     *
     * @param told the records of the file
     */
    @Transactional(readOnly = true)
    public boolean maySpoil(SiteId site, SetId set, Set<UUID> told) {
        return basket.maySpoil(site, set, told);
    }

    /**
     * Holds a set for what cleanings of a file did to the parts that are still in it.
     *
     * @param told the records of the file
     * @return whether there was anything to hold it for
     */
    public boolean holdAfterFile(Author author, SetId set, Set<UUID> told) {
        telling.take(author.site(), set);
        List<Draft> held = basket.afterFile(author.site(), set, told);
        if (!held.isEmpty()) {
            telling.tell(author, held, set);
        }
        return !held.isEmpty();
    }

    /** Why the set would go on hold by such a cleaning; nothing where every part bears it. */
    @Transactional(readOnly = true)
    public List<String> wouldHold(SiteId site, SetId set, Cleaning cleaning, Instant at) {
        return over(site, set, cleaning, at).stream()
                .map(draft -> String.valueOf(((Hold) draft.fact()).reason()))
                .toList();
    }

    private List<Draft> over(SiteId site, SetId set, Cleaning cleaning, Instant at) {
        if (cleaning.method() == Cleaning.Method.WIPE) {
            return List.of();
        }
        List<Draft> holds = new ArrayList<>(spoilt(site, set, cleaning, at));
        holds.addAll(basket.tooOften(site, set, at));
        return holds;
    }

    /** Holds for water, product or contact that a part does not bear, however often it was washed. */
    List<Draft> spoilt(SiteId site, SetId set, Cleaning cleaning, Instant at) {
        if (cleaning.method() == Cleaning.Method.WIPE) {
            return List.of();
        }
        List<Draft> holds = new ArrayList<>();
        if (cleaning.celsius() != null) {
            holds.addAll(basket.tooHot(site, set, cleaning.celsius(), at));
        }
        if (cleaning.product() != null && cleaning.wetSeconds() != null) {
            holds.addAll(basket.spoilt(site, set, cleaning.product(), cleaning.wetSeconds(), at));
        }
        return holds;
    }
}
