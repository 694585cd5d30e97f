package org.hoodkeeper.evidence;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Set;
import org.hoodkeeper.calculation.parts.RecallNotice;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Recall;
import org.hoodkeeper.facts.RecallDecision;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Custodies;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.kit.KitSet;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Sets and parts that are called back. Which sets a recall bars follows from their parts and is settled in the same transaction. */
@Service
@Transactional
public class Recalls {

    private final Telling telling;
    private final Known known;
    private final Kit kit;
    private final Custodies custodies;
    private final ApplicationEventPublisher events;

    Recalls(Telling telling, Known known, Kit kit, Custodies custodies, ApplicationEventPublisher events) {
        this.telling = telling;
        this.known = known;
        this.kit = kit;
        this.custodies = custodies;
        this.events = events;
    }

    /**
     * Records a recall. Every set of the site is locked first, so that no part is fitted beside it unseen.
     *
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code recall.swapBy.past} when the last day lies before the
     *     day of the recall; {@code ledger.future}
     */
    public RecordId record(Author author, Recall recall, Instant at, @Nullable String sourceId) {
        if (recall.swapBy() != null && recall.swapBy().isBefore(Days.of(at, known.zone(author.site())))) {
            throw new Refused("recall.swapBy.past", recall.swapBy(), at);
        }
        custodies.lock(
                author.site(), kit.sets(author.site()).stream().map(KitSet::id).toList());
        RecordId record =
                telling.tell(author, Draft.of(recall, author.site(), at).source(sourceId));
        events.publishEvent(new PartsTold(author, null));
        return record;
    }

    /**
     * Frees a set of a recall although its part is in.
     *
     * @throws org.hoodkeeper.kernel.NotFound {@code record.unknown} when there is no such recall
     * @throws Refused {@code recall.reason.missing}; {@code recall.at.early} before the recall; {@code ledger.future}
     */
    public RecordId decide(Author author, SetId set, RecordId recall, @Nullable String reason, Instant at) {
        Shape.present(reason, "recall.reason.missing");
        telling.take(author.site(), set);
        Told<Recall> told = known.record(author.site(), Recall.class, Kind.RECALL, recall);
        if (at.isBefore(told.from())) {
            throw new Refused("recall.at.early", at, told.from());
        }
        RecordId record = telling.tell(
                author, Draft.of(new RecallDecision(reason), set, at).item(recall), set);
        events.publishEvent(new PartsTold(author, Set.of(set)));
        return record;
    }

    /** What the words of a recall mean. @throws Refused as {@link RecallNotice} */
    public static RecallNotice notice(Recall recall) {
        return new RecallNotice(
                recall.model() == null ? null : recall.model().toString(),
                recall.place(),
                recall.part(),
                recall.lot(),
                recall.serials(),
                recall.madeFrom(),
                recall.madeUntil());
    }

    /** @throws Refused as {@link Accept#fact} */
    static void shape(Recall recall) {
        RecallNotice notice = notice(recall);
        if (!notice.isOfModel() && recall.place() == null && recall.part() == null) {
            throw new Refused("recall.place.missing");
        }
        if (notice.isOfModel() && recall.model() == null) {
            throw new Refused("recall.place.missing");
        }
        Shape.present(recall.remedy(), "recall.remedy.missing");
        if ((recall.remedy() == Recall.Remedy.SWAP_BY) != (recall.swapBy() != null)) {
            throw new Refused("recall.swapBy.missing");
        }
        Shape.present(recall.reason(), "recall.reason.missing");
        Shape.note(recall.reason(), "reason");
        Shape.name(recall.place(), "slot");
        Shape.name(recall.part(), "part");
        Shape.name(recall.lot(), "lot");
        Shape.name(recall.notice(), "notice");
        recall.serials().forEach(serial -> Shape.name(serial, "serial"));
        Shape.day(recall.madeFrom(), "recall.madeFrom.range");
        Shape.day(recall.madeUntil(), "recall.madeUntil.range");
        Shape.day(recall.swapBy(), "recall.swapBy.range");
    }

    /** The recalls that stand, oldest first; reasons left out. */
    @Transactional(readOnly = true)
    public List<Told<Recall>> all(SiteId site) {
        List<Told<Recall>> oldest = new ArrayList<>(known.newest(site, Recall.class, Kind.RECALL, site));
        Collections.reverse(oldest);
        return oldest;
    }

    /** Decisions that freed sets, newest first; reasons left out. */
    @Transactional(readOnly = true)
    public List<Told<RecallDecision>> decisions(SiteId site) {
        return known.all(site, RecallDecision.class, Kind.RECALL_DECISION);
    }
}
