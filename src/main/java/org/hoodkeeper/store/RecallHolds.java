package org.hoodkeeper.store;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.hoodkeeper.calculation.parts.Fitting;
import org.hoodkeeper.evidence.Holds;
import org.hoodkeeper.evidence.PartsTold;
import org.hoodkeeper.evidence.Recalls;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Recall;
import org.hoodkeeper.facts.RecallDecision;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kit.Custodies;
import org.hoodkeeper.programme.SiteRegister;
import org.jspecify.annotations.Nullable;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/**
 * Holds the sets that recalls mean, in the transaction that told of the recall or of the part, and ends a hold once its part is
 * out, or the recall is. What should be held is derived each time from recalls, parts and decisions, and compared with what is.
 */
@Component
class RecallHolds {

    private final Recalls recalls;
    private final Holds holds;
    private final RecallGrounds grounds;
    private final Custodies custodies;
    private final SiteRegister sites;

    RecallHolds(Recalls recalls, Holds holds, RecallGrounds grounds, Custodies custodies, SiteRegister sites) {
        this.recalls = recalls;
        this.holds = holds;
        this.grounds = grounds;
        this.custodies = custodies;
        this.sites = sites;
    }

    private record Of(RecordId recall, SetId set) {}

    @EventListener
    @Transactional(propagation = Propagation.MANDATORY)
    public void settle(PartsTold told) {
        SiteId site = told.author().site();
        Set<SetId> some = told.sets();
        List<Told<Recall>> standing = recalls.all(site);
        Map<Of, Told<Hold>> held = held(site, some);
        if (standing.isEmpty() && held.isEmpty()) {
            return;
        }
        RecallGround ground = grounds.of(site, some);
        List<Told<RecallDecision>> decisions = recalls.decisions(site);
        List<Holds.Barred> missing = new ArrayList<>();
        Map<Of, Instant> over = new HashMap<>();
        held.forEach((of, hold) -> over.put(of, hold.from().minusMillis(1)));
        for (Told<Recall> recall : standing) {
            ground.meant(Recalls.notice(recall.fact())).forEach((set, meant) -> {
                Of of = new Of(recall.id(), set);
                Instant bars =
                        bars(recall, set, meant, decisions, sites.get(site).zone());
                if (bars == null) {
                    over.computeIfPresent(of, (any, since) -> ended(recall, set, meant, decisions, since));
                } else if (!holdsBy(held.get(of), bars)) {
                    missing.add(new Holds.Barred(set, recall.id(), recall.fact().notice(), bars));
                } else {
                    over.remove(of);
                }
            });
        }
        lock(site, missing, over);
        over.forEach((of, at) -> holds.recallOver(
                told.author(), Objects.requireNonNull(held.get(of)), of.recall().toString(), at));
        holds.recall(told.author(), missing);
    }

    /** One that would bar too late is taken back and placed anew. */
    private static boolean holdsBy(@Nullable Told<Hold> hold, Instant bars) {
        return hold != null && !hold.from().isAfter(bars);
    }

    private Map<Of, Told<Hold>> held(SiteId site, @Nullable Set<SetId> some) {
        Map<Of, Told<Hold>> held = new HashMap<>();
        for (Told<Hold> hold : holds.ofRecalls(site)) {
            SetId set = new SetId(hold.subject());
            if (some == null || some.contains(set)) {
                held.put(new Of(RecordId.of(Objects.requireNonNull(hold.scope())), set), hold);
            }
        }
        return held;
    }

    /**
     * From when a set is barred; none where nothing that is meant is in it, or where it was decided otherwise since that was
     * fitted. A part that is fitted after the recall bars at once, whatever the recall grants to those that had it.
     */
    static @Nullable Instant bars(
            Told<Recall> recall,
            SetId set,
            List<RecallGround.Meant> meant,
            List<Told<RecallDecision>> decisions,
            ZoneId zone) {
        return meant.stream()
                .filter(RecallGround.Meant::isIn)
                .map(RecallGround.Meant::fitting)
                .filter(fitting -> decision(recall.id(), set, fitting, decisions) == null)
                .map(fitting -> bars(recall, fitting, zone))
                .min(Comparator.naturalOrder())
                .orElse(null);
    }

    private static Instant bars(Told<Recall> recall, Fitting fitting, ZoneId zone) {
        if (fitting.from().isAfter(recall.from())) {
            return fitting.from();
        }
        return recall.fact().swapBy() == null
                ? recall.from()
                : Days.endOf(recall.fact().swapBy(), zone);
    }

    /** The decision that frees a set of a recall although that part is in; none where it is barred. */
    static @Nullable Told<RecallDecision> decision(
            RecordId recall, SetId set, Fitting fitting, List<Told<RecallDecision>> decisions) {
        return decisions.stream()
                .filter(told -> told.subject().equals(set.value())
                        && recall.value().equals(told.item())
                        && !told.from().isBefore(fitting.from()))
                .findFirst()
                .orElse(null);
    }

    /** When what was meant came out, or was decided about; the time given where it never counted. */
    private static Instant ended(
            Told<Recall> recall,
            SetId set,
            List<RecallGround.Meant> meant,
            List<Told<RecallDecision>> decisions,
            Instant never) {
        Instant last = never;
        for (RecallGround.Meant one : meant) {
            Told<RecallDecision> decided = decision(recall.id(), set, one.fitting(), decisions);
            Instant end = decided != null ? decided.from() : one.fitting().until();
            if (end != null && end.isAfter(last)) {
                last = end;
            }
        }
        return last;
    }

    private void lock(SiteId site, List<Holds.Barred> missing, Map<Of, Instant> over) {
        List<SetId> sets = new ArrayList<>();
        missing.forEach(one -> sets.add(one.set()));
        over.keySet().forEach(one -> sets.add(one.set()));
        custodies.lock(site, sets);
    }
}
