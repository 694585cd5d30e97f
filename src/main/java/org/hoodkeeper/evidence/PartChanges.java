package org.hoodkeeper.evidence;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Parts fitted into sets; each is announced as {@link PartsTold}, for a recall may mean it. */
@Service
@Transactional
public class PartChanges {

    private final Telling telling;
    private final Known known;
    private final Stock stock;
    private final Holds holds;
    private final ApplicationEventPublisher events;

    PartChanges(Telling telling, Known known, Stock stock, Holds holds, ApplicationEventPublisher events) {
        this.telling = telling;
        this.known = known;
        this.stock = stock;
        this.holds = holds;
        this.events = events;
    }

    /**
     * Records the part and takes it from the store's stock of that lot, where there is one. A lot that the store never had is
     * recorded all the same, and stands on the page of the stock; a lot over its day puts the set on hold.
     *
     * @param slot where it sits, by the model's own name for the place
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code partChange.slot.unknown} when the model has no such
     *     place, {@code partChange.madeOn.later} when it was made after it was fitted; {@code partChange.set.impounded} while it is kept as
     *     found; {@code ledger.future}
     */
    public RecordId record(
            Author author, SetId set, String slot, PartChange change, Instant at, @Nullable String sourceId) {
        telling.take(author.site(), set);
        return record(author, set, slot, change, stock.fitted(author.site(), set, change, at), at, sourceId);
    }

    /**
     * Records a part that came in its set: nothing is taken from the stock, whatever its lot. A lot over its day holds the set all
     * the same.
     *
     * @throws Refused as {@link #record}
     */
    public RecordId delivered(Author author, SetId set, String slot, PartChange change, Instant at) {
        telling.take(author.site(), set);
        return record(author, set, slot, change, stock.overItsDay(author.site(), set, change, at), at, null);
    }

    private RecordId record(
            Author author,
            SetId set,
            String slot,
            PartChange change,
            List<Draft> follows,
            Instant at,
            @Nullable String sourceId) {
        holds.requireNotImpounded(author.site(), set, at, "partChange.set.impounded");
        ModelData model = known.modelOf(author.site(), set, at);
        List<String> slots = model == null
                ? List.of()
                : model.slots().stream().map(ModelData.Slot::name).toList();
        if (!slots.isEmpty() && !slots.contains(slot)) {
            throw new Refused("partChange.slot.unknown", slot, slots);
        }
        LocalDate day = Days.of(at, known.zone(author.site()));
        if (change.madeOn() != null && change.madeOn().isAfter(day)) {
            throw new Refused("partChange.madeOn.later", change.madeOn(), day);
        }
        List<Draft> drafts = new ArrayList<>();
        drafts.add(Draft.of(change, set, at).scope(slot).source(sourceId));
        drafts.addAll(follows);
        RecordId record = telling.tell(author, drafts, set).records().get(0);
        events.publishEvent(new PartsTold(author, Set.of(set)));
        return record;
    }
}
