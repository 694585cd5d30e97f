package org.hoodkeeper.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.calculation.parts.Fitting;
import org.hoodkeeper.calculation.parts.RecallNotice;
import org.hoodkeeper.evidence.Holds;
import org.hoodkeeper.evidence.Recalls;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Recall;
import org.hoodkeeper.facts.RecallDecision;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Custodies;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.kit.KitSet;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.reporting.Worn;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;

/** How far each recall is: which sets have it, who has those, which had it and who wore them meanwhile, and what is done. */
@Service
@Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
public class RecallBook {

    /** More notices than a site gets. */
    private static final int MOST = 2_000;

    private final Recalls recalls;
    private final RecallGrounds grounds;
    private final Holds holds;
    private final Bench bench;
    private final PartHistory parts;
    private final History history;
    private final Custodies custodies;
    private final Kit kit;
    private final SiteRegister sites;

    RecallBook(
            Recalls recalls,
            RecallGrounds grounds,
            Holds holds,
            Bench bench,
            PartHistory parts,
            History history,
            Custodies custodies,
            Kit kit,
            SiteRegister sites) {
        this.recalls = recalls;
        this.grounds = grounds;
        this.holds = holds;
        this.bench = bench;
        this.parts = parts;
        this.history = history;
        this.custodies = custodies;
        this.kit = kit;
        this.sites = sites;
    }

    /** A recall with its reason. @param left sets that have it still and were not decided about @param all that are or were concerned */
    public record Notice(Told<Recall> told, AccountId by, int left, int all) {

        public Recall recall() {
            return told.fact();
        }

        /** Share of the sets that are done with, 0 to 100, rounded down: 100 is said only when nothing is left. */
        public int percentDone() {
            return all == 0 ? 100 : 100 * (all - left) / all;
        }
    }

    /**
     * A set that has it.
     *
     * @param bars from when it is barred; none where it was decided otherwise
     * @param isUnknown nothing on record speaks against it, and its mark is not on record
     * @param worn the wear that goes on this minute; none where nobody is in with it
     */
    public record Has(
            ShelfSet set,
            Fitting fitting,
            boolean isUnknown,
            @Nullable Instant bars,
            @Nullable Told<RecallDecision> decided,
            @Nullable Worn worn) {

        public boolean isLeft() {
            return bars != null;
        }
    }

    /** @param place where the sets are @param left of them, to be done @param done of them */
    public record Place(String place, int left, int done) {

        public int percentDone() {
            return 100 * done / (left + done);
        }
    }

    /**
     * @param has in it now, in hands first
     * @param had in it once and out by now, the last taken out first
     * @param places where the sets concerned are: the store's name, or empty for "in somebody's hands"
     * @param readyWithout how many sets of the site would be ready without this recall, and {@code ready} how many are
     */
    public record Whole(
            Notice notice,
            List<Has> has,
            List<PartHistory.Stay> had,
            List<Place> places,
            long readyWithout,
            long ready) {

        public List<Has> left() {
            return has.stream().filter(Has::isLeft).toList();
        }

        public long inHands() {
            return left().stream().filter(one -> one.set().holder() != null).count();
        }

        public long worn() {
            return left().stream().filter(one -> one.worn() != null).count();
        }

        public long unknown() {
            return left().stream().filter(Has::isUnknown).count();
        }

        public long wearsOfThoseThatHad() {
            return had.stream().mapToLong(stay -> stay.wears().size()).sum();
        }
    }

    /** A recalled set in somebody's hands. @param bars from when nobody may wear it */
    public record InHands(
            String label,
            Recall recall,
            Instant bars,
            @Nullable String store) {}

    /** Every recall that stands: those with sets left first, then the newest. */
    public List<Notice> all(SiteId site, Instant now) {
        List<Notice> notices = new ArrayList<>();
        List<History.Version> versions = history.of(site, Set.of(Kind.RECALL), now, MOST).stream()
                .filter(History.Version::isCurrent)
                .toList();
        if (versions.isEmpty()) {
            return notices;
        }
        RecallGround ground = grounds.of(site, null);
        List<Told<RecallDecision>> decisions = recalls.decisions(site);
        versions.forEach(version -> notices.add(notice(site, version, ground, decisions)));
        notices.sort(Comparator.comparing((Notice notice) -> notice.left() == 0));
        return notices;
    }

    /** @throws NotFound {@code record.unknown} when there is no such recall, or it was taken back */
    public Whole one(SiteId site, RecordId record, Instant now) {
        History.Version version = version(site, record, now);
        RecallGround ground = grounds.of(site, null);
        List<Told<RecallDecision>> decisions = recalls.decisions(site);
        Notice notice = notice(site, version, ground, decisions);
        Map<SetId, List<RecallGround.Meant>> meant = ground.meant(Recalls.notice(notice.recall()));
        List<ShelfSet> shelf = bench.of(site, now);
        Map<SetId, ShelfSet> sets = new HashMap<>();
        shelf.forEach(set -> sets.put(set.id(), set));
        List<Has> has = has(site, notice, meant, decisions, sets, now);
        Set<SetId> left = new HashSet<>();
        has.stream().filter(Has::isLeft).forEach(one -> left.add(one.set().id()));
        List<Fitting> out = meant.values().stream()
                .flatMap(List::stream)
                .filter(one -> !one.isIn())
                .map(RecallGround.Meant::fitting)
                .toList();
        long ready = shelf.stream().filter(RecallBook::isReady).count();
        long more = has.stream()
                .filter(Has::isLeft)
                .filter(one -> wouldBeReady(one.set()))
                .count();
        return new Whole(
                notice,
                has,
                parts.stays(site, out, now),
                places(concerned(notice, meant), left, sets),
                ready + more,
                ready);
    }

    /** How many sets a recall would hold. @param unknown of them such as have a mark not on record */
    public record Reach(int sets, int inHands, int unknown) {}

    /** Before it is recorded. @throws org.hoodkeeper.kernel.Refused as {@link Recalls#notice} */
    public Reach reach(SiteId site, Recall recall, Instant now) {
        Map<SetId, List<RecallGround.Meant>> meant = grounds.of(site, null).meant(Recalls.notice(recall));
        meant.values().removeIf(all -> all.stream().noneMatch(RecallGround.Meant::isIn));
        int inHands = (int) bench.of(site, now).stream()
                .filter(set -> set.holder() != null && meant.containsKey(set.id()))
                .count();
        int unknown = (int) meant.values().stream()
                .filter(all -> all.stream()
                        .filter(RecallGround.Meant::isIn)
                        .allMatch(one -> one.match() == RecallNotice.Match.UNKNOWN))
                .count();
        return new Reach(meant.size(), inHands, unknown);
    }

    /** What a worker has in hand that is recalled. */
    public List<InHands> inHands(SiteId site, WorkerId worker, Instant now) {
        List<SetId> mine = custodies.inHand(site, worker, now);
        if (mine.isEmpty()) {
            return List.of();
        }
        List<Told<Recall>> standing = recalls.all(site);
        List<InHands> inHands = new ArrayList<>();
        for (SetId set : mine) {
            for (Told<Hold> hold : holds.open(site, set)) {
                standing.stream()
                        .filter(recall -> recall.id().toString().equals(hold.scope()))
                        .findFirst()
                        .ifPresent(recall -> {
                            KitSet known = kit.set(site, set);
                            ShelfSet shelf = bench.one(site, known.label(), now);
                            inHands.add(new InHands(
                                    known.label(),
                                    recall.fact(),
                                    hold.from(),
                                    shelf.data() == null ? null : shelf.data().store()));
                        });
            }
        }
        inHands.sort(Comparator.comparing(InHands::bars));
        return inHands;
    }

    private History.Version version(SiteId site, RecordId record, Instant now) {
        History.Version version = history.find(site, record, now);
        if (version == null || version.kind() != Kind.RECALL || !version.isCurrent()) {
            throw new NotFound("record.unknown", record);
        }
        return version;
    }

    private Notice notice(
            SiteId site, History.Version version, RecallGround ground, List<Told<RecallDecision>> decisions) {
        @SuppressWarnings("unchecked")
        Told<Recall> told = (Told<Recall>) version.told();
        Map<SetId, List<RecallGround.Meant>> meant = ground.meant(Recalls.notice(told.fact()));
        Notice bare = new Notice(told, version.toldBy(), 0, 0);
        Set<SetId> concerned = concerned(bare, meant);
        int left = (int) concerned.stream()
                .filter(set -> bars(site, told, set, Objects.requireNonNull(meant.get(set)), decisions) != null)
                .count();
        return new Notice(told, version.toldBy(), left, concerned.size());
    }

    private @Nullable Instant bars(
            SiteId site,
            Told<Recall> told,
            SetId set,
            List<RecallGround.Meant> meant,
            List<Told<RecallDecision>> decisions) {
        return RecallHolds.bars(told, set, meant, decisions, sites.get(site).zone());
    }

    /** Sets that had it when the recall came, or got it later. */
    private static Set<SetId> concerned(Notice notice, Map<SetId, List<RecallGround.Meant>> meant) {
        Instant at = notice.told().from();
        Set<SetId> concerned = new HashSet<>();
        meant.forEach((set, all) -> {
            if (all.stream()
                    .anyMatch(one -> one.isInAt(at) || one.fitting().from().isAfter(at))) {
                concerned.add(set);
            }
        });
        return concerned;
    }

    private List<Has> has(
            SiteId site,
            Notice notice,
            Map<SetId, List<RecallGround.Meant>> meant,
            List<Told<RecallDecision>> decisions,
            Map<SetId, ShelfSet> sets,
            Instant now) {
        Map<SetId, List<Worn>> wears = parts.wears(site, meant.keySet(), now.minus(Worn.LONGEST), now);
        List<Has> has = new ArrayList<>();
        meant.forEach((set, all) -> all.stream()
                .filter(RecallGround.Meant::isIn)
                .max(Comparator.comparing(RecallGround.Meant::match))
                .ifPresent(worst -> {
                    Instant bars = bars(site, notice.told(), set, all, decisions);
                    has.add(new Has(
                            Objects.requireNonNull(sets.get(set)),
                            worst.fitting(),
                            worst.match() == RecallNotice.Match.UNKNOWN,
                            bars,
                            bars != null
                                    ? null
                                    : RecallHolds.decision(notice.told().id(), set, worst.fitting(), decisions),
                            worn(wears.getOrDefault(set, List.of()), now)));
                }));
        has.sort(Comparator.comparing((Has one) -> one.worn() == null)
                .thenComparing(one -> one.set().holder() == null)
                .thenComparing(one -> !one.isLeft())
                .thenComparing(one -> one.set().label()));
        return has;
    }

    /** Somebody went in and has not come out. */
    private static @Nullable Worn worn(List<Worn> wears, Instant now) {
        return wears.stream()
                .filter(one -> one.until() == null || one.until().isAfter(now))
                .filter(one -> !one.from().isAfter(now))
                .findFirst()
                .orElse(null);
    }

    private static List<Place> places(Set<SetId> concerned, Set<SetId> left, Map<SetId, ShelfSet> sets) {
        Map<String, int[]> counts = new TreeMap<>();
        for (SetId id : concerned) {
            ShelfSet set = Objects.requireNonNull(sets.get(id));
            String store = set.data() == null || set.data().store() == null
                    ? ""
                    : set.data().store();
            String place = set.holder() != null ? "" : store;
            counts.computeIfAbsent(place, any -> new int[2])[left.contains(id) ? 0 : 1]++;
        }
        List<Place> places = new ArrayList<>();
        counts.forEach((place, count) -> places.add(new Place(place, count[0], count[1])));
        return places;
    }

    private static boolean isReady(ShelfSet set) {
        return set.state() == ShelfSet.State.READY;
    }

    /** In the store, and nothing but recalls stands in the way. */
    private static boolean wouldBeReady(ShelfSet set) {
        List<Reason> barring = set.readiness().barring();
        return set.state() == ShelfSet.State.BLOCKED
                && !barring.isEmpty()
                && barring.stream()
                        .allMatch(reason ->
                                !reason.details().isEmpty() && reason.details().get(0) == Hold.Why.RECALL);
    }
}
