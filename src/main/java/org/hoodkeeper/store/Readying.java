package org.hoodkeeper.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.hoodkeeper.assessment.Readiness;
import org.hoodkeeper.evidence.Washes;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.reporting.BoardRow;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.SiteBoards;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;

/**
 * How many sets are ready at a coming time, against the people posted to a task then. Who has a set wants one of its model and
 * size; a person posted to several tasks with a set for each wants each. Sets kept for emergencies are not the store's to give.
 */
@Service
@Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
public class Readying {

    private final SiteBoards boards;
    private final Bench bench;
    private final Washes washes;

    Readying(SiteBoards boards, Bench bench, Washes washes) {
        this.boards = boards;
        this.bench = bench;
        this.washes = washes;
    }

    /**
     * @param from the time asked about, not before now
     * @throws org.hoodkeeper.kernel.Refused {@code moment.at.future} for one more than a year ahead
     */
    public ReadyCount of(Viewer viewer, Instant from, Instant now) {
        List<ShelfSet> shelf = bench.of(viewer.site(), from);
        Map<String, ShelfSet> byLabel = new HashMap<>();
        shelf.forEach(set -> byLabel.put(set.label(), set));
        Set<String> wanted = new LinkedHashSet<>();
        Map<WorkerId, String> posted = new LinkedHashMap<>();
        Set<WorkerId> withSet = new LinkedHashSet<>();
        for (BoardRow row : boards.of(viewer, Moment.of(from, false, now)).rows()) {
            if (row.task() == null) {
                continue;
            }
            posted.put(row.worker().id(), row.worker().name());
            ShelfSet set = row.set() == null ? null : byLabel.get(row.set());
            if (set != null && set.data() != null) {
                wanted.add(set.label());
                withSet.add(row.worker().id());
            }
        }
        posted.keySet().removeAll(withSet);
        return new ReadyCount(
                from,
                sizes(shelf, wanted, new Batches(washes.open(viewer.site(), now)), now),
                posted.values().stream().sorted().toList());
    }

    /**
     * When a set of the store is ready for anybody at the earliest, if what it lacks is begun now, or goes on in the wash.
     *
     * @return none where something is left that has no usual time
     */
    public @Nullable Instant earliest(SiteId site, ShelfSet set, Instant now) {
        Batches batches = set.washing() == null ? new Batches(List.of()) : new Batches(washes.open(site, now));
        return awaited(set, batches, now).ready();
    }

    /** Which open batch a set lies in. */
    private record Batches(List<Washes.Batch> open) {

        Washes.@Nullable Batch of(SetId set) {
            return open.stream()
                    .filter(batch -> batch.sets().contains(set))
                    .findFirst()
                    .orElse(null);
        }
    }

    private static List<ReadyCount.OfSize> sizes(
            List<ShelfSet> shelf, Set<String> wanted, Batches batches, Instant now) {
        Map<List<String>, List<ShelfSet>> groups = new TreeMap<>(
                Comparator.<List<String>, String>comparing(key -> key.get(0)).thenComparing(key -> key.get(1)));
        for (ShelfSet set : shelf) {
            SetData data = set.data();
            if (data == null) {
                continue;
            }
            boolean counts =
                    wanted.contains(set.label()) || (set.state() != ShelfSet.State.WITHDRAWN && !data.emergency());
            if (counts) {
                groups.computeIfAbsent(List.of(set.model(), set.size()), key -> new ArrayList<>())
                        .add(set);
            }
        }
        List<ReadyCount.OfSize> sizes = new ArrayList<>();
        groups.forEach((key, sets) -> sizes.add(ofSize(key, sets, wanted, batches, now)));
        sizes.sort(Comparator.comparingInt(ReadyCount.OfSize::shortBy).reversed());
        return List.copyOf(sizes);
    }

    private static ReadyCount.OfSize ofSize(
            List<String> key, List<ShelfSet> sets, Set<String> wanted, Batches batches, Instant now) {
        int asked = 0;
        int inHand = 0;
        int inStore = 0;
        List<ReadyCount.Awaited> awaited = new ArrayList<>();
        for (ShelfSet set : sets) {
            boolean own = wanted.contains(set.label());
            asked += own ? 1 : 0;
            if (own && isReadyInHand(set)) {
                inHand++;
            } else if (set.state() == ShelfSet.State.READY && hasAir(set)) {
                inStore++;
            } else if (set.state() != ShelfSet.State.WITHDRAWN) {
                awaited.add(awaited(set, batches, now));
            }
        }
        awaited.sort(Comparator.comparing(
                        ReadyCount.Awaited::ready, Comparator.nullsLast(Comparator.<Instant>naturalOrder()))
                .thenComparing(ReadyCount.Awaited::stage, Comparator.reverseOrder())
                .thenComparing(ReadyCount.Awaited::label));
        return new ReadyCount.OfSize(key.get(0), key.get(1), asked, inHand, inStore, List.copyOf(awaited));
    }

    private static boolean isReadyInHand(ShelfSet set) {
        Readiness readiness = set.readiness();
        boolean forHolder = readiness.state() == Readiness.State.READY
                || (readiness.state() == Readiness.State.READY_FOR_LAST_WEARER
                        && set.holder() != null
                        && set.holder().equals(readiness.lastWearer()));
        return forHolder && set.washing() == null && hasAir(set);
    }

    private static boolean hasAir(ShelfSet set) {
        return set.readiness().barringSupply().isEmpty();
    }

    private static ReadyCount.Awaited awaited(ShelfSet set, Batches batches, Instant now) {
        Set<SetStep> steps = new LinkedHashSet<>();
        if (set.holder() != null) {
            steps.add(SetStep.RETURN);
        }
        if (set.state() == ShelfSet.State.MISSING) {
            steps.add(SetStep.FOUND);
        }
        for (SetStep step : SetStep.clearing(set)) {
            steps.add(step);
            if (step == SetStep.CLEAN && set.type() != null && set.type().hasFlow()) {
                // a flow from before a wash proves nothing after it
                steps.remove(SetStep.FLOW_CHECK);
                steps.add(SetStep.FLOW_CHECK);
            }
        }
        boolean air = !hasAir(set);
        Washes.Batch batch = set.washing() == null ? null : batches.of(set.id());
        if (batch != null) {
            // its flow is measured at the end of the wash, and is in the usual times
            steps.remove(SetStep.CLEAN);
            steps.remove(SetStep.FLOW_CHECK);
        }
        List<SetStep> left = List.copyOf(steps);
        Instant ready = null;
        if (!air && batch == null) {
            ready = UsualTimes.ready(left, set.modelData(), now);
        } else if (!air && batch != null && left.isEmpty()) {
            ready = UsualTimes.ready(batch, now);
        }
        return new ReadyCount.Awaited(set.label(), set.stage(), left, air, ready);
    }
}
