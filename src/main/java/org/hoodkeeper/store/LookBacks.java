package org.hoodkeeper.store;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.calculation.parts.Fitting;
import org.hoodkeeper.calculation.parts.LookBackWindow;
import org.hoodkeeper.calculation.parts.LookBackWindow.Check;
import org.hoodkeeper.evidence.Accept;
import org.hoodkeeper.evidence.Recalls;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.LookBack;
import org.hoodkeeper.facts.Recall;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.SupplyId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Custodies;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.reporting.Worn;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Since when a fault may have been there, and who wore it meanwhile. A look-back is derived from each failure as known now; told
 * are only what the safety officer decided about it, and what closed it.
 */
@Service
@Transactional(readOnly = true)
public class LookBacks {

    /** More versions than one set or instrument gathers; the newest are kept. */
    private static final int MOST = 20_000;

    /** What may prove something of a set. */
    private static final Set<Kind> OF_A_SET = Set.of(
            Kind.FLOW_CHECK, Kind.EXAMINATION, Kind.PRE_USE_CHECK, Kind.GUIDED_WORK, Kind.CLEANING, Kind.PART_CHANGE);

    private final Failures failures;
    private final History history;
    private final FlowCourses flows;
    private final RulesAtSite rules;
    private final PartHistory parts;
    private final RecallGrounds grounds;
    private final SharedThings shared;
    private final Kit kit;
    private final Custodies custodies;
    private final Ledger ledger;
    private final KnowledgeClock clock;
    private final JdbcTemplate jdbc;

    LookBacks(
            Failures failures,
            History history,
            FlowCourses flows,
            RulesAtSite rules,
            PartHistory parts,
            RecallGrounds grounds,
            SharedThings shared,
            Kit kit,
            Custodies custodies,
            Ledger ledger,
            KnowledgeClock clock,
            JdbcTemplate jdbc) {
        this.failures = failures;
        this.history = history;
        this.flows = flows;
        this.rules = rules;
        this.parts = parts;
        this.grounds = grounds;
        this.shared = shared;
        this.kit = kit;
        this.custodies = custodies;
        this.ledger = ledger;
        this.clock = clock;
        this.jdbc = jdbc;
    }

    /** Where a look-back stands; follows from what was told of it and from what is known now. */
    public enum State {
        UNDECIDED,
        /** More is inside now than when it was decided, or the start moved back. */
        CHANGED,
        DECIDED,
        CLOSED,
        /** Nobody wore it since the last check that counts: nothing to decide. */
        NOBODY
    }

    /** What was told about a look-back. */
    public record Step(RecordId record, LookBack fact, Instant at, AccountId by) {}

    /** A fault with its window. */
    public record Looked(Fault fault, LookBackWindow window) {}

    /**
     * A set that may have had it.
     *
     * @param from the wears that touch the time from there on count; none for ever since it came
     * @param wears oldest first
     * @param again the next flow of it that counts, where an instrument was wrong; none where nobody measured it since
     */
    public record Exposed(
            SetId set,
            @Nullable Instant from,
            Instant until,
            List<Worn> wears,
            @Nullable MeasuredFlow again) {}

    /**
     * @param root the first version of the failure: the look-back's name
     * @param failure its version that stands
     * @param looked each fault with its window; empty where the record asks for no look-back any more
     * @param exposed the sets, those with most wears first
     * @param state none where it asks for none any more and nothing was told
     * @param steps newest first
     */
    public record Whole(
            RecordId root,
            History.Version failure,
            List<Looked> looked,
            List<Exposed> exposed,
            State state,
            List<Step> steps,
            Instant now) {

        public boolean holds() {
            return !looked.isEmpty();
        }

        /** The earliest start; none where no check of one of the faults counts. */
        public @Nullable Instant from() {
            Instant from = Instant.MAX;
            for (Looked one : looked) {
                if (one.window().from() == null) {
                    return null;
                }
                from = one.window().from().isBefore(from) ? one.window().from() : from;
            }
            return looked.isEmpty() ? null : from;
        }

        public Instant until() {
            return looked.stream()
                    .map(one -> one.window().until())
                    .max(Instant::compareTo)
                    .orElse(failure.told().from());
        }

        public List<Worn> wears() {
            return exposed.stream()
                    .flatMap(one -> one.wears().stream())
                    .sorted(Comparator.comparing(Worn::from))
                    .toList();
        }

        public Set<WorkerId> people() {
            return wears().stream().map(Worn::worker).collect(Collectors.toSet());
        }

        /** How long it was worn; a wear without an end counts until now, at most 24 hours. */
        public Duration worn() {
            return wears().stream().map(this::lasted).reduce(Duration.ZERO, Duration::plus);
        }

        public Duration lasted(Worn worn) {
            Instant end = worn.judged(now).until();
            return Duration.between(worn.from(), worn.until() == null ? end : worn.until());
        }

        public boolean isOpen() {
            return state == State.UNDECIDED || state == State.CHANGED || state == State.DECIDED;
        }

        public boolean awaitsDecision() {
            return state == State.UNDECIDED || state == State.CHANGED;
        }

        public @Nullable Step decision() {
            return steps.stream()
                    .filter(step -> step.fact().step() == LookBack.Step.DECIDED)
                    .findFirst()
                    .orElse(null);
        }
    }

    /**
     * @param what place, part and lot; the wash; the examiner's name
     * @param instrument the instrument; none for the others
     * @param sets the others, by their ids
     */
    public record Shared(
            Sort sort, List<String> what, @Nullable InstrumentId instrument, Set<SetId> sets) {

        /** What they have in common. */
        public enum Sort {
            LOT,
            WASH,
            INSTRUMENT,
            EXAMINER
        }
    }

    /** Of failures within a period: those that await a decision first, then the newest. */
    public List<Whole> of(SiteId site, Instant from, Instant until) {
        Instant now = clock.now();
        List<Whole> all = whole(site, failures.of(site, from, until, now), now);
        all.sort(Comparator.comparing((Whole one) -> !one.awaitsDecision())
                .thenComparing(one -> one.failure().told().from(), Comparator.reverseOrder()));
        return all;
    }

    /** @param record any version of a failure @throws NotFound {@code record.unknown}, also where it never asked for a look-back */
    public Whole one(SiteId site, RecordId record) {
        Instant now = clock.now();
        Whole whole = whole(site, List.of(failures.one(site, record, now)), now).get(0);
        if (!whole.holds() && whole.steps().isEmpty()) {
            throw new NotFound("record.unknown", record);
        }
        return whole;
    }

    /** Whether a record, by any version, asks for a look-back. */
    public boolean asks(SiteId site, RecordId record) {
        return !failures.one(site, record, clock.now()).faults().isEmpty();
    }

    /** The checks that were looked at: the one that starts it, and those that do not count. */
    public Map<RecordId, History.Version> checks(SiteId site, Whole whole) {
        List<UUID> ids = whole.looked().stream()
                .flatMap(one -> Stream.concat(Stream.ofNullable(one.window().proof()), one.window().refused().stream()))
                .map(check -> check.record().value())
                .toList();
        return history.those(site, ids, whole.now()).stream()
                .collect(Collectors.toMap(version -> version.told().id(), version -> version, (one, same) -> one));
    }

    /** What else has a part, lot, wash, instrument or examiner in common with a failure of one set. */
    public List<Shared> shared(SiteId site, Whole whole) {
        return shared.of(site, whole);
    }

    /**
     * Decides what follows; may be decided again.
     *
     * @throws Refused {@code lookBack.reason.missing}
     * @throws NotFound {@code record.unknown}
     */
    @Transactional
    public RecordId decide(Viewer viewer, RecordId record, Set<LookBack.Measure> measures, @Nullable String reason) {
        Whole whole = locked(viewer.site(), record);
        return tell(
                viewer,
                whole,
                new LookBack(LookBack.Step.DECIDED, whole.from(), whole.wears().size(), measures, reason));
    }

    /**
     * @throws Refused {@code lookBack.reason.missing}; {@code lookBack.undecided} where nothing was decided about what is known
     *     now; {@code lookBack.closed}
     */
    @Transactional
    public RecordId close(Viewer viewer, RecordId record, @Nullable String reason) {
        Whole whole = locked(viewer.site(), record);
        if (whole.state() == State.CLOSED) {
            throw new Refused("lookBack.closed", whole.steps().get(0).at());
        }
        if (whole.state() != State.DECIDED) {
            throw new Refused("lookBack.undecided");
        }
        return tell(
                viewer,
                whole,
                new LookBack(LookBack.Step.CLOSED, whole.from(), whole.wears().size(), Set.of(), reason));
    }

    private Whole locked(SiteId site, RecordId record) {
        Failures.Failure failure = failures.one(site, record, clock.now());
        if (failure.isOfSet()) {
            custodies.lock(site, failure.set());
        }
        return one(site, record);
    }

    private RecordId tell(Viewer viewer, Whole whole, LookBack step) {
        Accept.fact(step);
        return ledger.append(
                Author.at(viewer), Draft.of(step, viewer.site(), clock.now()).item(whole.root()));
    }

    private List<Whole> whole(SiteId site, List<Failures.Failure> failed, Instant now) {
        Map<UUID, List<Step>> steps = steps(site, now);
        Ground ground = ground(site, failed, now);
        List<Whole> all = new ArrayList<>();
        for (Failures.Failure failure : failed) {
            List<Step> told = steps.getOrDefault(failure.root().value(), List.of());
            Whole bare = failure.faults().isEmpty()
                    ? bare(failure, List.of(), List.of(), told, now)
                    : derived(site, failure, ground, told, now);
            all.add(with(bare, state(bare)));
        }
        return all;
    }

    private static Whole bare(
            Failures.Failure failure, List<Looked> looked, List<Exposed> exposed, List<Step> steps, Instant now) {
        return new Whole(failure.root(), failure.version(), looked, exposed, State.UNDECIDED, steps, now);
    }

    private static Whole with(Whole bare, State state) {
        return new Whole(bare.root(), bare.failure(), bare.looked(), bare.exposed(), state, bare.steps(), bare.now());
    }

    private static State state(Whole whole) {
        Step decision = whole.decision();
        if (decision == null) {
            return whole.wears().isEmpty() ? State.NOBODY : State.UNDECIDED;
        }
        if (whole.holds() && isBeyond(whole, decision)) {
            return State.CHANGED;
        }
        return whole.steps().get(0).fact().step() == LookBack.Step.CLOSED ? State.CLOSED : State.DECIDED;
    }

    /** More wears than were known, or one that was told or put right since: it may be another person's. */
    private static boolean isBeyond(Whole whole, Step decision) {
        Instant from = whole.from();
        Instant then = decision.fact().since();
        boolean earlier = then != null && (from == null || from.isBefore(then));
        return earlier
                || whole.wears().size() > decision.fact().wears()
                || whole.wears().stream().anyMatch(worn -> worn.toldAt().isAfter(decision.at()));
    }

    private Whole derived(SiteId site, Failures.Failure failure, Ground ground, List<Step> steps, Instant now) {
        return switch (failure.version().kind()) {
            case RECALL -> recalled(site, failure, steps, now);
            case CALIBRATION -> measuredWrong(site, failure, ground, steps, now);
            case AIR_TEST -> badAir(site, failure, ground, steps, now);
            default -> ofSet(failure, ground, steps, now);
        };
    }

    private Whole ofSet(Failures.Failure failure, Ground ground, List<Step> steps, Instant now) {
        SetId set = failure.set();
        List<Worn> wears = ground.wears().getOrDefault(set, List.of());
        List<Looked> looked = failure.faults().stream()
                .map(fault -> new Looked(fault, window(fault, failure, ground, wears, now)))
                .toList();
        Whole whole = bare(failure, looked, List.of(), steps, now);
        Exposed exposed = exposed(set, whole.from(), whole.until(), wears, now);
        return bare(failure, looked, List.of(exposed), steps, now);
    }

    private static Exposed exposed(SetId set, @Nullable Instant from, Instant until, List<Worn> wears, Instant now) {
        LookBackWindow window = new LookBackWindow(from, until, null, List.of());
        List<Worn> inside = wears.stream()
                .filter(worn -> window.touches(worn.from(), worn.judged(now).until()))
                .toList();
        return new Exposed(set, from, until, inside, null);
    }

    private static LookBackWindow window(
            Fault fault, Failures.Failure failure, Ground ground, List<Worn> wears, Instant now) {
        List<History.Version> versions = ground.evidence().getOrDefault(failure.set(), List.of());
        if (failure.version().kind() == Kind.PART_CHANGE) {
            // it cannot be older than its fitting, and goes on until another part takes its place
            Instant out = versions.stream()
                    .filter(version -> version.kind() == Kind.PART_CHANGE && version.isCurrent())
                    .map(History.Version::told)
                    .filter(told -> Objects.equals(told.scope(), failure.told().scope())
                            && told.from().isAfter(failure.at()))
                    .map(Told::from)
                    .min(Comparator.naturalOrder())
                    .orElse(now);
            return new LookBackWindow(
                    failure.at(), out, new Check(failure.told().id(), failure.at(), null), List.of());
        }
        List<Check> checks = new ArrayList<>();
        for (History.Version version : versions) {
            Check check = version.isCurrent()
                            && !version.told().id().equals(failure.told().id())
                    ? ground.caughtBy().check(fault, version)
                    : null;
            if (check != null) {
                checks.add(check);
            }
        }
        return LookBackWindow.of(checks, failure.at(), outOfUse(checks, failure.at(), wears, now));
    }

    /** Whoever wore it when the fault was found, or before it was proven good again, came out of it only then. */
    private static Instant outOfUse(List<Check> checks, Instant found, List<Worn> wears, Instant now) {
        Instant good = checks.stream()
                .filter(check -> check.counts() && check.at().isAfter(found))
                .map(Check::at)
                .min(Comparator.naturalOrder())
                .orElse(now);
        Instant last = found;
        for (Worn worn : wears) {
            Instant end = worn.judged(now).until();
            if (worn.from().isBefore(good) && end.isAfter(last)) {
                last = end;
            }
        }
        return last;
    }

    /** A recalled part is in doubt for as long as it sat in a set; no check of the site would have caught it. */
    private Whole recalled(SiteId site, Failures.Failure failure, List<Step> steps, Instant now) {
        List<Fitting> fittings =
                grounds
                        .of(site, null)
                        .meant(Recalls.notice((Recall) failure.told().fact()))
                        .values()
                        .stream()
                        .flatMap(List::stream)
                        .map(RecallGround.Meant::fitting)
                        .toList();
        List<Exposed> exposed = new ArrayList<>();
        for (PartHistory.Stay stay : parts.stays(site, fittings, now)) {
            Instant out = stay.fitting().until();
            exposed.add(new Exposed(
                    stay.fitting().set(), stay.fitting().from(), out == null ? now : out, stay.wears(), null));
        }
        Instant from = fittings.stream()
                .map(Fitting::from)
                .min(Comparator.naturalOrder())
                .orElse(failure.at());
        Instant until = exposed.stream()
                .map(Exposed::until)
                .max(Comparator.naturalOrder())
                .orElse(failure.at());
        Looked looked = new Looked(failure.faults().get(0), new LookBackWindow(from, until, null, List.of()));
        return bare(failure, List.of(looked), mostWornFirst(exposed), steps, now);
    }

    private static List<Exposed> mostWornFirst(List<Exposed> exposed) {
        return exposed.stream()
                .sorted(Comparator.comparing((Exposed one) -> one.wears().size())
                        .reversed())
                .toList();
    }

    /** Every set of which a reading rested on the instrument, from that reading until it was measured again. */
    private Whole measuredWrong(SiteId site, Failures.Failure failure, Ground ground, List<Step> steps, Instant now) {
        InstrumentId instrument = new InstrumentId(failure.told().subject());
        Fault fault = failure.faults().get(0);
        List<Check> checks = new ArrayList<>();
        for (History.Version version : history.of(site, instrument, Set.of(Kind.CALIBRATION), now, MOST)) {
            Check check = version.isCurrent() ? ground.caughtBy().check(fault, version) : null;
            if (check != null) {
                checks.add(check);
            }
        }
        LookBackWindow window = LookBackWindow.of(checks, failure.at(), failure.at());
        Map<SetId, List<MeasuredFlow>> wrong = new LinkedHashMap<>();
        for (MeasuredFlow one : flows.by(site, instrument, window.from(), failure.at(), now)) {
            wrong.computeIfAbsent(one.set(), any -> new ArrayList<>()).add(one);
        }
        Map<SetId, List<Worn>> wears = parts.wears(site, wrong.keySet(), Instant.EPOCH, now);
        Map<SetId, List<MeasuredFlow>> after = measuredAfter(site, wrong.keySet(), window.from(), now);
        List<Exposed> exposed = new ArrayList<>();
        wrong.forEach((set, oldestFirst) -> {
            Instant from = oldestFirst.get(0).at();
            Instant last = oldestFirst.get(oldestFirst.size() - 1).at();
            MeasuredFlow again = after.getOrDefault(set, List.of()).stream()
                    .filter(one -> one.at().isAfter(last) && one.isAccepted())
                    .findFirst()
                    .orElse(null);
            Exposed touched =
                    exposed(set, from, again == null ? now : again.at(), wears.getOrDefault(set, List.of()), now);
            exposed.add(new Exposed(set, from, touched.until(), touched.wears(), again));
        });
        return bare(failure, List.of(new Looked(fault, window)), mostWornFirst(exposed), steps, now);
    }

    /** Oldest first. */
    private Map<SetId, List<MeasuredFlow>> measuredAfter(
            SiteId site, Collection<SetId> sets, @Nullable Instant from, Instant now) {
        List<History.Version> versions = history.ofEach(
                site, sets.stream().map(SetId::value).toList(), Set.of(Kind.FLOW_CHECK, Kind.EXAMINATION), now, MOST);
        Map<SetId, List<MeasuredFlow>> measured = new HashMap<>();
        for (MeasuredFlow one : flows.measured(site, versions, now)) {
            if (from == null || one.at().isAfter(from)) {
                measured.computeIfAbsent(one.set(), any -> new ArrayList<>()).add(one);
            }
        }
        return measured;
    }

    /** Every set that hung on the supply. A move since the last good test does not move the start: the air was good until then. */
    private Whole badAir(SiteId site, Failures.Failure failure, Ground ground, List<Step> steps, Instant now) {
        SupplyId supply = new SupplyId(failure.told().subject());
        Fault fault = failure.faults().get(0);
        List<Check> checks = new ArrayList<>();
        for (History.Version version : history.of(site, supply, Set.of(Kind.AIR_TEST), now, MOST)) {
            Check check = version.isCurrent()
                            && !version.told().id().equals(failure.told().id())
                    ? ground.caughtBy().check(fault, version)
                    : null;
            if (check != null) {
                checks.add(check);
            }
        }
        Set<SetId> sets = history.naming(site, Kind.SET, "supply", supply, Instant.EPOCH, now, MOST).stream()
                .map(version -> new SetId(version.told().subject()))
                .collect(Collectors.toSet());
        Map<SetId, List<Worn>> wears = parts.wears(site, sets, Instant.EPOCH, now);
        DataThen data = ground.caughtBy().data();
        wears.replaceAll((set, worn) -> worn.stream()
                .filter(one -> {
                    var then = data.set(set, one.from());
                    return then != null && supply.equals(then.supply());
                })
                .toList());
        List<Worn> all = wears.values().stream().flatMap(List::stream).toList();
        LookBackWindow window = LookBackWindow.of(checks, failure.at(), outOfUse(checks, failure.at(), all, now));
        List<Exposed> exposed = new ArrayList<>();
        wears.forEach((set, worn) -> exposed.add(exposed(set, window.from(), window.until(), worn, now)));
        return bare(failure, List.of(new Looked(fault, window)), mostWornFirst(exposed), steps, now);
    }

    /** What the failures of sets are held against, read for all of them together. */
    private record Ground(
            Map<SetId, List<History.Version>> evidence, Map<SetId, List<Worn>> wears, CaughtBy caughtBy) {}

    private Ground ground(SiteId site, List<Failures.Failure> failed, Instant now) {
        Set<SetId> sets = failed.stream()
                .filter(failure -> failure.isOfSet() && !failure.faults().isEmpty())
                .map(Failures.Failure::set)
                .collect(Collectors.toSet());
        Map<SetId, List<History.Version>> evidence = new HashMap<>();
        Map<RecordId, MeasuredFlow> measured = new HashMap<>();
        Map<SetId, List<Worn>> wears = new HashMap<>();
        if (!sets.isEmpty()) {
            List<History.Version> versions =
                    history.ofEach(site, sets.stream().map(SetId::value).toList(), OF_A_SET, now, MOST);
            versions.forEach(
                    version -> evidence.computeIfAbsent(new SetId(version.told().subject()), any -> new ArrayList<>())
                            .add(version));
            flows.measured(site, versions, now)
                    .forEach(one -> measured.put(one.version().told().id(), one));
            wears.putAll(parts.wears(site, sets, Instant.EPOCH, now));
        }
        Set<UUID> wearers = evidence.values().stream()
                .flatMap(List::stream)
                .filter(version -> version.kind() == Kind.PRE_USE_CHECK)
                .flatMap(version -> Stream.ofNullable(version.told().item()))
                .collect(Collectors.toCollection(HashSet::new));
        return new Ground(
                evidence,
                wears,
                new CaughtBy(
                        new DataThen(history, site, now),
                        new AirThen(rules, site, now),
                        measured,
                        trained(site, wearers, now)));
    }

    private Map<CaughtBy.Training, Instant> trained(SiteId site, Set<UUID> workers, Instant now) {
        Map<CaughtBy.Training, Instant> trained = new HashMap<>();
        if (workers.isEmpty()) {
            return trained;
        }
        Map<String, ModelId> models =
                kit.models(site).stream().collect(Collectors.toMap(model -> model.code(), model -> model.id()));
        jdbc.query(
                """
                select r.subject, r.scope, min(r.true_from) from ledger_record r
                where r.site_id = ? and r.kind = ? and r.subject = any(?) and r.scope is not null and not r.withdrawn
                  and r.true_from <= ? and r.body ->> 'outcome' = 'PASS' and r.body ->> 'demonstrated' = 'true'
                  and not exists (select 1 from ledger_record c where c.site_id = r.site_id and c.corrects = r.id)
                group by r.subject, r.scope""",
                row -> {
                    ModelId model = models.get(row.getString(2));
                    if (model != null) {
                        trained.put(
                                new CaughtBy.Training(row.getObject(1, UUID.class), model),
                                row.getTimestamp(3).toInstant());
                    }
                },
                site.value(),
                Kind.TRAINING.number(),
                workers.toArray(UUID[]::new),
                now.atOffset(ZoneOffset.UTC));
        return trained;
    }

    /** By the failure's name, newest first. */
    private Map<UUID, List<Step>> steps(SiteId site, Instant now) {
        Map<UUID, List<Step>> steps = new HashMap<>();
        for (History.Version version : history.of(site, Set.of(Kind.LOOK_BACK), now, MOST)) {
            UUID failure = version.told().item();
            if (version.isCurrent() && failure != null && version.told().fact() instanceof LookBack fact) {
                steps.computeIfAbsent(failure, any -> new ArrayList<>())
                        .add(new Step(version.told().id(), fact, version.told().recordedAt(), version.toldBy()));
            }
        }
        return steps;
    }
}
