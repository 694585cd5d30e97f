package org.hoodkeeper.reporting;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.sql.Timestamp;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Objects;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.UUID;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.assessment.AirAdequacy;
import org.hoodkeeper.assessment.AirPart;
import org.hoodkeeper.assessment.ResultShelf;
import org.hoodkeeper.assessment.TaskAir;
import org.hoodkeeper.assessment.TaskFile;
import org.hoodkeeper.calculation.Adequacy;
import org.hoodkeeper.calculation.BetweenWorkers;
import org.hoodkeeper.calculation.ComplianceTest;
import org.hoodkeeper.calculation.ExposureStatistics;
import org.hoodkeeper.calculation.HazardRatio;
import org.hoodkeeper.calculation.MaximumUse;
import org.hoodkeeper.calculation.NormalityTest;
import org.hoodkeeper.calculation.ProbabilityPlot;
import org.hoodkeeper.calculation.Proportion;
import org.hoodkeeper.calculation.Sample;
import org.hoodkeeper.calculation.WornProtection;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.programme.RuleShelf;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.programme.Task;
import org.hoodkeeper.rules.DangerousAirRule;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.ProtectionFactor;
import org.hoodkeeper.rules.RuleSet;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;

/** The assessment sheets of tasks: what is in the air, what is enough for it, and what all that rests on. */
@Service
@Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
public class TaskSheets {

    private static final int SHIFT_MINUTES = 480;

    private final SiteRegister sites;
    private final Programme programme;
    private final Kit kit;
    private final Dossiers dossiers;
    private final RuleShelf shelf;
    private final History history;
    private final JdbcTemplate jdbc;

    TaskSheets(
            SiteRegister sites,
            Programme programme,
            Kit kit,
            Dossiers dossiers,
            RuleShelf shelf,
            History history,
            JdbcTemplate jdbc) {
        this.sites = sites;
        this.programme = programme;
        this.kit = kit;
        this.dossiers = dossiers;
        this.shelf = shelf;
        this.history = history;
        this.jdbc = jdbc;
    }

    /** @throws NotFound {@code task.unknown} */
    public TaskSheet of(SiteId site, String code, Moment moment) {
        return sheets(site, List.of(programme.task(site, code)), moment).get(0);
    }

    /** Every task of the site, by code. */
    public List<TaskSheet> all(SiteId site, Moment moment) {
        return sheets(site, programme.tasks(site), moment);
    }

    /**
     * Which models were enough at a task through a time, as known at one moment: the codes, by the instant from which they were.
     * The first key is the beginning of the time.
     */
    NavigableMap<Instant, Set<String>> enough(SiteId id, String code, Interval during, Instant knownAt) {
        Site site = sites.get(id);
        Task task = programme.task(id, code);
        Map<ModelId, String> models = models(id);
        Dossiers.Loaded loaded = dossiers.load(
                site, new Dossiers.Wanted(List.of(), List.of(task.id()), List.of(), models), during, knownAt);
        NavigableMap<Instant, Set<String>> enough = new TreeMap<>();
        for (Instant at : changes(loaded, task, models, during)) {
            Moment moment = new Moment(at, knownAt, Moment.View.AS_KNOWN_NOW);
            enough.put(at, new Writing(site, task, moment, loaded, models, Map.of()).enough());
        }
        return enough;
    }

    /** When anything that a sheet is written from begins; the beginning of the time first. */
    private static SortedSet<Instant> changes(
            Dossiers.Loaded loaded, Task task, Map<ModelId, String> models, Interval during) {
        TaskFile file = loaded.task(task.id());
        SortedSet<Instant> changes = new TreeSet<>(Set.of(during.from()));
        Stream<Instant> begins = Stream.of(
                        file.bases().stream().map(Told::from),
                        file.results().all().stream().map(Told::from),
                        file.limits().values().stream().flatMap(List::stream).map(Told::from),
                        models.entrySet().stream()
                                .flatMap(one -> loaded.model(one.getKey(), one.getValue()).data().stream())
                                .map(Told::from))
                .flatMap(Function.identity());
        begins.filter(during::contains).forEach(changes::add);
        for (Instant next = loaded.rules().at(during.from()).changesAt();
                during.contains(next);
                next = loaded.rules().at(next).changesAt()) {
            changes.add(next);
        }
        return changes;
    }

    private Map<ModelId, String> models(SiteId site) {
        Map<ModelId, String> models = new LinkedHashMap<>();
        kit.models(site).stream()
                .sorted(Comparator.comparing(model -> model.code()))
                .forEach(model -> models.put(model.id(), model.code()));
        return models;
    }

    private List<TaskSheet> sheets(SiteId id, List<Task> tasks, Moment moment) {
        Site site = sites.get(id);
        Map<ModelId, String> models = models(id);
        Dossiers.Loaded loaded = dossiers.load(
                site,
                new Dossiers.Wanted(List.of(), tasks.stream().map(Task::id).toList(), List.of(), models),
                new Interval(moment.at(), moment.at().plus(Duration.ofMinutes(1))),
                moment.knownAt());
        Map<RecordId, Beside> beside = beside(
                id,
                tasks.stream()
                        .flatMap(task -> loaded.task(task.id()).results().all().stream())
                        .map(Told::id)
                        .toList());
        return tasks.stream()
                .map(task -> new Writing(site, task, moment, loaded, models, beside).sheet())
                .toList();
    }

    /** What lies beside a result, where an erasure reaches it. */
    private record Beside(@Nullable String person, @Nullable String laboratory) {}

    private Map<RecordId, Beside> beside(SiteId site, List<RecordId> results) {
        Map<RecordId, Beside> beside = new HashMap<>();
        jdbc.query(
                """
                select p.record_id, p.content ->> 'person', p.content ->> 'laboratory' from ledger_private p
                where p.site_id = ? and p.record_id = any(?)""",
                row -> {
                    beside.put(
                            new RecordId(row.getObject(1, UUID.class)), new Beside(row.getString(2), row.getString(3)));
                },
                site.value(),
                results.stream().map(RecordId::value).toArray(UUID[]::new));
        return beside;
    }

    /** One sheet while it is written. */
    private final class Writing {

        private final Site site;
        private final Task task;
        private final Moment moment;
        private final Dossiers.Loaded loaded;
        private final Map<ModelId, String> models;
        private final Map<RecordId, Beside> beside;
        private final TaskFile file;
        private final InForce rules;

        private Writing(
                Site site,
                Task task,
                Moment moment,
                Dossiers.Loaded loaded,
                Map<ModelId, String> models,
                Map<RecordId, Beside> beside) {
            this.beside = beside;
            this.site = site;
            this.task = task;
            this.moment = moment;
            this.loaded = loaded;
            this.models = models;
            this.file = loaded.task(task.id());
            this.rules = loaded.rules().at(moment.at());
        }

        private TaskSheet sheet() {
            Told<TaskBasis> basis = newest(file.bases());
            List<Told<ExposureResult>> begun = begun();
            List<AirPart> air = basis == null ? List.of() : air(basis, begun);
            HazardRatio ratio = basis == null ? null : ratio(air, basis);
            HazardRatio stated = basis == null ? null : ratio(air(basis, List.of()), basis);
            Proportion seen = basis == null ? null : seen(task.id(), basis.from());
            TaskBasis signed = signed(basis);
            List<TaskSheet.ModelLine> lines = lines(basis, air, ratio, seen);
            return new TaskSheet(
                    task.code(),
                    moment,
                    basis,
                    signed == null ? null : signed.assessor(),
                    signed == null ? null : signed.note(),
                    signed == null ? null : signed.whyBelow(),
                    isOver(basis),
                    rules.ruleSet(),
                    TaskAir.statistic(rules),
                    rules.decision("exposure.statistic"),
                    air,
                    ratio == null ? null : ratio.value(),
                    stated == null ? null : stated.value(),
                    basis == null
                            ? List.of()
                            : TaskAir.weighed(basis.fact(), begun, file.results(), rules, site.zone()),
                    basis == null ? List.of() : replaced(basis),
                    basis == null ? List.of() : unjudged(TaskAir.restingOn(basis.fact(), begun, site.zone())),
                    samples(
                            basis == null ? begun : TaskAir.restingOn(basis.fact(), begun, site.zone()),
                            basis == null ? BigDecimal.ONE : TaskAir.shareOfLimit(basis.fact())),
                    ratio == null || basis == null ? List.of() : classes(basis.fact(), air, ratio, lines),
                    lines,
                    seen);
        }

        /** The codes of the models that are enough. */
        private Set<String> enough() {
            Told<TaskBasis> basis = newest(file.bases());
            if (basis == null) {
                return Set.of();
            }
            List<AirPart> air = air(basis, begun());
            return lines(basis, air, ratio(air, basis), null).stream()
                    .filter(line -> line.stand().isEnough())
                    .map(TaskSheet.ModelLine::code)
                    .collect(Collectors.toSet());
        }

        private List<TaskSheet.ModelLine> lines(
                @Nullable Told<TaskBasis> basis,
                List<AirPart> air,
                @Nullable HazardRatio ratio,
                @Nullable Proportion seen) {
            return models.keySet().stream()
                    .map(model -> line(model, basis, air, ratio, seen))
                    .filter(Objects::nonNull)
                    .toList();
        }

        private List<Told<ExposureResult>> begun() {
            return file.results().all().stream()
                    .filter(told -> !told.from().isAfter(moment.at()))
                    .toList();
        }

        private List<AirPart> air(Told<TaskBasis> basis, List<Told<ExposureResult>> begun) {
            return TaskAir.of(basis, begun, this::limit, file.results(), rules, site.zone());
        }

        private List<TaskSheet.Unjudged> unjudged(List<Told<ExposureResult>> resting) {
            Map<List<String>, List<Told<ExposureResult>>> peaks = new LinkedHashMap<>();
            for (Told<ExposureResult> told : resting) {
                String substance = String.valueOf(told.scope());
                Told<Limit> limit = limit(substance);
                ExposureResult.Period period = told.fact().against();
                if (period != ExposureResult.Period.SHIFT
                        && (limit == null || limit.fact().of(period) == null)) {
                    peaks.computeIfAbsent(List.of(substance, period.name()), any -> new ArrayList<>())
                            .add(told);
                }
            }
            return peaks.entrySet().stream()
                    .map(one -> new TaskSheet.Unjudged(
                            one.getKey().get(0),
                            ExposureResult.Period.valueOf(one.getKey().get(1)),
                            Collections.max(
                                    one.getValue(),
                                    Comparator.comparing((Told<ExposureResult> told) ->
                                            told.fact().value())),
                            one.getValue().size()))
                    .toList();
        }

        /** What the assessment could have in mind and is no longer what is on record. */
        private List<TaskSheet.Replaced> replaced(Told<TaskBasis> basis) {
            Timestamp assessed = Timestamp.from(TaskAir.assessed(basis));
            LocalDate since = basis.fact().resultsSince();
            return jdbc.query(
                    """
                    select r.id, r.scope, r.true_from, (r.body ->> 'value')::numeric, r.body ->> 'unit', c.withdrawn, c.recorded_at
                    from ledger_record r
                    join ledger_record c on c.site_id = r.site_id and c.corrects = r.id
                    where r.site_id = ? and r.subject = ? and r.kind = ? and not r.withdrawn and (r.recorded_at <= ?) is true
                      and r.true_from <= ? and r.true_from >= ? and c.recorded_at > ? and c.recorded_at <= ?
                    order by r.true_from, r.recorded_at""",
                    (row, n) -> new TaskSheet.Replaced(
                            new RecordId(row.getObject(1, UUID.class)),
                            String.valueOf(row.getString(2)),
                            row.getTimestamp(3).toInstant(),
                            row.getBigDecimal(4),
                            row.getString(5),
                            row.getBoolean(6),
                            row.getTimestamp(7).toInstant()),
                    site.id().value(),
                    task.id().value(),
                    Kind.EXPOSURE_RESULT.number(),
                    assessed,
                    Timestamp.from(basis.from()),
                    Timestamp.from(since == null ? Instant.EPOCH : Days.startOf(since, site.zone())),
                    assessed,
                    Timestamp.from(moment.knownAt()));
        }

        private @Nullable Told<Limit> limit(String substance) {
            return newest(file.limits().getOrDefault(substance, List.of()));
        }

        private <F extends Fact> @Nullable Told<F> newest(List<Told<F>> newestFirst) {
            return newestFirst.stream()
                    .filter(told -> !told.from().isAfter(moment.at()))
                    .findFirst()
                    .orElse(null);
        }

        private boolean isOver(@Nullable Told<TaskBasis> basis) {
            LocalDate last = basis == null ? null : basis.fact().lastDay();
            return last != null && !moment.at().isBefore(Days.endOf(last, site.zone()));
        }

        /** With the signature and the note, which lie beside the ledger. */
        private @Nullable TaskBasis signed(@Nullable Told<TaskBasis> basis) {
            History.Version version = basis == null ? null : history.find(site.id(), basis.id(), moment.knownAt());
            return version != null && version.told().fact() instanceof TaskBasis whole ? whole : null;
        }

        private @Nullable HazardRatio ratio(List<AirPart> air, Told<TaskBasis> basis) {
            boolean known = !air.isEmpty() && air.stream().allMatch(part -> part.problem() == null);
            return known ? AirAdequacy.ratio(air, basis.fact()) : null;
        }

        private List<TaskSheet.Samples> samples(List<Told<ExposureResult>> resting, BigDecimal shareOfLimit) {
            Map<List<String>, List<Told<ExposureResult>>> groups = new TreeMap<>(
                    Comparator.comparing((List<String> key) -> key.get(0)).thenComparing(key -> key.get(1)));
            for (Told<ExposureResult> told : resting) {
                if (told.fact().against() == ExposureResult.Period.SHIFT) {
                    String group = told.fact().group();
                    groups.computeIfAbsent(
                                    List.of(String.valueOf(told.scope()), group == null ? "" : group),
                                    any -> new ArrayList<>())
                            .add(0, told);
                }
            }
            List<TaskSheet.Samples> samples = new ArrayList<>();
            groups.forEach((key, results) ->
                    samples.add(samples(key.get(0), key.get(1).isEmpty() ? null : key.get(1), results, shareOfLimit)));
            return samples;
        }

        private TaskSheet.Samples samples(
                String substance, @Nullable String group, List<Told<ExposureResult>> results, BigDecimal shareOfLimit) {
            Told<Limit> limit = limit(substance);
            Refused units = units(substance, limit, results);
            if (units != null) {
                return unmeasurable(substance, group, limit, results, units);
            }
            List<Sample> values = ResultShelf.samples(results);
            BigDecimal limitValue = limit == null ? null : limit.fact().value().multiply(shareOfLimit);
            Refused refused = null;
            ExposureStatistics statistics = null;
            try {
                statistics = ExposureStatistics.of(values);
            } catch (Refused tooFew) {
                refused = tooFew;
            }
            BetweenWorkers workers = null;
            Refused workersRefused = null;
            try {
                workers = BetweenWorkers.of(byWorker(results));
            } catch (Refused cannotTell) {
                workersRefused = cannotTell;
            }
            return new TaskSheet.Samples(
                    substance,
                    group,
                    limit,
                    limitValue,
                    Collections.unmodifiableList(results),
                    statistics,
                    refused,
                    limitValue == null ? null : orNone(() -> ComplianceTest.of(values, limitValue)),
                    orNone(() -> NormalityTest.ofLogarithms(values)),
                    workers,
                    workersRefused,
                    laboratories(results),
                    ProbabilityPlot.of(values));
        }

        /** Figures of several units, or of another than the limit's, make no statistic: why; none where all are of one. */
        private @Nullable Refused units(
                String substance, @Nullable Told<Limit> limit, List<Told<ExposureResult>> results) {
            String unit = limit == null
                    ? results.get(results.size() - 1).fact().unit()
                    : limit.fact().unit();
            return results.stream()
                    .map(told -> told.fact().unit())
                    .filter(other -> !other.equals(unit))
                    .findFirst()
                    .map(other -> new Refused("exposure.unit.differs", other, unit, substance))
                    .orElse(null);
        }

        private TaskSheet.Samples unmeasurable(
                String substance,
                @Nullable String group,
                @Nullable Told<Limit> limit,
                List<Told<ExposureResult>> results,
                Refused units) {
            return new TaskSheet.Samples(
                    substance,
                    group,
                    limit,
                    null,
                    Collections.unmodifiableList(results),
                    null,
                    units,
                    null,
                    null,
                    null,
                    units,
                    laboratories(results),
                    List.of());
        }

        private List<String> laboratories(List<Told<ExposureResult>> results) {
            return results.stream()
                    .map(told -> beside.get(told.id()))
                    .map(of -> of == null ? null : of.laboratory())
                    .filter(Objects::nonNull)
                    .distinct()
                    .sorted()
                    .toList();
        }

        /** Results that name nobody do not enter. */
        private Map<String, List<Sample>> byWorker(List<Told<ExposureResult>> results) {
            Map<String, List<Sample>> byWorker = new TreeMap<>();
            for (Told<ExposureResult> told : results) {
                Beside of = beside.get(told.id());
                if (of != null && of.person() != null) {
                    byWorker.computeIfAbsent(of.person(), any -> new ArrayList<>())
                            .addAll(ResultShelf.samples(List.of(told)));
                }
            }
            return byWorker;
        }

        private <T> @Nullable T orNone(Supplier<T> sum) {
            try {
                return sum.get();
            } catch (Refused notPossible) {
                return null;
            }
        }

        /** What may be worn at the task at all and has the factor; whether its filter stops everything, no class tells. */
        private List<TaskSheet.ClassLine> classes(
                TaskBasis basis, List<AirPart> air, HazardRatio ratio, List<TaskSheet.ModelLine> lines) {
            List<TaskSheet.ClassLine> classes = new ArrayList<>();
            LocalDate day = Days.of(moment.at(), site.zone());
            for (RuleSet set : shelf.knownAt(moment.knownAt())) {
                if (!rules.ruleSet().equals(set.code() + " " + set.version())) {
                    continue;
                }
                set.factors().stream()
                        .filter(factor -> factor.inForce().on(day))
                        .filter(factor -> wouldDo(set, factor, day, basis, air, ratio))
                        .forEach(factor -> classes.add(new TaskSheet.ClassLine(
                                factor.deviceClass(),
                                factor.interfaces(),
                                factor.factor(),
                                ratio.marginOf(factor.factor()),
                                factor.provenance(),
                                lines.stream()
                                        .filter(line -> line.factor() != null
                                                && line.factor().deviceClass().equals(factor.deviceClass()))
                                        .map(TaskSheet.ModelLine::code)
                                        .toList())));
            }
            classes.sort(
                    Comparator.comparing(TaskSheet.ClassLine::factor).thenComparing(TaskSheet.ClassLine::deviceClass));
            return classes;
        }

        private boolean wouldDo(
                RuleSet set,
                ProtectionFactor of,
                LocalDate day,
                TaskBasis basis,
                List<AirPart> air,
                HazardRatio ratio) {
            InForce.Factor factor = new InForce.Factor(
                    of.factor(),
                    of.deviceClass(),
                    of.provenance(),
                    set.dangerousAir(of.deviceClass(), day)
                            .map(DangerousAirRule::provenance)
                            .orElse(null));
            return of.interfaces().stream()
                    .anyMatch(
                            type -> stand(type, null, factor, basis, air, ratio).isEnough());
        }

        private TaskSheet.@Nullable ModelLine line(
                ModelId id,
                @Nullable Told<TaskBasis> basis,
                List<AirPart> air,
                @Nullable HazardRatio ratio,
                @Nullable Proportion seen) {
            String code = models.getOrDefault(id, "");
            Told<ModelData> told = newest(loaded.model(id, code).data());
            if (told == null) {
                return null;
            }
            ModelData data = told.fact();
            InForce.Factor factor = rules.factor(data);
            InForce.Decided longest = rules.decision("wear.longest", data.type().name());
            TaskSheet.Stand stand = basis == null
                    ? TaskSheet.Stand.UNKNOWN
                    : stand(data.type(), data.filters(), factor, basis.fact(), air, ratio);
            boolean letsThrough = unstopped(data.type(), data.filters(), air) != null;
            boolean sums = stand.isEnough() && ratio != null && factor != null;
            return new TaskSheet.ModelLine(
                    id,
                    code,
                    data.type(),
                    data.sizes(),
                    factor,
                    stand,
                    factor == null || letsThrough ? null : use(factor, data.type(), air),
                    letsThrough,
                    sums
                            ? WornProtection.minutesAllowed(
                                    Objects.requireNonNull(factor).value(),
                                    Objects.requireNonNull(ratio),
                                    SHIFT_MINUTES)
                            : 0,
                    factor == null || seen == null
                            ? null
                            : WornProtection.effective(
                                    factor.value(),
                                    BigDecimal.valueOf(seen.share()).setScale(6, RoundingMode.HALF_UP)),
                    longest == null ? null : longest.value(),
                    data.batteryMinutes(),
                    rules.decision("filter.longest-use", code),
                    rules.decision("filter.good-once-opened", code));
        }

        /** @param filters what its filter stops; none of a class, which does not tell */
        private TaskSheet.Stand stand(
                InterfaceType type,
                @Nullable Set<FilterKind> filters,
                InForce.@Nullable Factor factor,
                TaskBasis basis,
                List<AirPart> air,
                @Nullable HazardRatio ratio) {
            boolean dangerous = basis.atmosphere() != TaskBasis.Atmosphere.ORDINARY;
            boolean named = factor != null && factor.isForDangerousAir();
            if (ratio == null && !(dangerous && named)) {
                return TaskSheet.Stand.UNKNOWN;
            }
            if (dangerous && !named) {
                return TaskSheet.Stand.IMMEDIATELY_DANGEROUS;
            }
            if (!basis.interfaces().isEmpty() && !basis.interfaces().contains(type)) {
                return TaskSheet.Stand.NOT_FOR_TASK;
            }
            if (factor == null) {
                return TaskSheet.Stand.CLASS_UNKNOWN;
            }
            if (ratio == null) {
                return AirAdequacy.isShort(air, basis, factor) ? TaskSheet.Stand.FACTOR_SHORT : TaskSheet.Stand.ENOUGH;
            }
            TaskSheet.Stand unstopped = unstopped(type, filters, air);
            if (unstopped != null) {
                return unstopped;
            }
            for (Adequacy.Shortfall shortfall :
                    AirAdequacy.of(air, basis, factor, type).shortfalls()) {
                switch (shortfall.reason()) {
                    case IMMEDIATELY_DANGEROUS -> {
                        return TaskSheet.Stand.IMMEDIATELY_DANGEROUS;
                    }
                    case BEYOND_FILTER -> {
                        return TaskSheet.Stand.BEYOND_FILTER;
                    }
                    case FACTOR_BELOW_RATIO -> {
                        // judged below, period by period
                    }
                }
            }
            return ratio.isCoveredBy(factor.value()) ? TaskSheet.Stand.ENOUGH : TaskSheet.Stand.FACTOR_SHORT;
        }

        /** Why a substance is let through; none where every one with a limit is stopped, or where air is supplied. */
        private static TaskSheet.@Nullable Stand unstopped(
                InterfaceType type, @Nullable Set<FilterKind> filters, List<AirPart> air) {
            if (!type.filtersRoomAir()) {
                return null;
            }
            for (AirPart part : air) {
                if (part.limit() == null) {
                    continue;
                }
                Limit limit = part.limit().fact();
                if (limit.airFedOnly()) {
                    return TaskSheet.Stand.AIR_FED_ONLY;
                }
                if (filters != null && !filters.containsAll(limit.filters())) {
                    return TaskSheet.Stand.FILTER_SHORT;
                }
            }
            return null;
        }

        private TaskSheet.@Nullable Use use(InForce.Factor factor, InterfaceType type, List<AirPart> air) {
            TaskSheet.Use strictest = null;
            BigDecimal share = null;
            for (AirPart part : air) {
                if (part.problem() != null || part.limit() == null || part.limitValue() == null) {
                    continue;
                }
                MaximumUse most = AirAdequacy.mostUse(part, factor, type);
                BigDecimal left = most.concentration().divide(part.value(), 10, RoundingMode.HALF_UP);
                if (share == null || left.compareTo(share) < 0) {
                    share = left;
                    strictest = new TaskSheet.Use(most, part.substance(), part.unit());
                }
            }
            return strictest;
        }

        /** Looks on the round at people posted to the task since it was assessed: worn right, against lifted or not worn. */
        private @Nullable Proportion seen(TaskId id, Instant since) {
            Function<String, Integer> count = seen -> jdbc.queryForObject(
                    """
                    select count(*) from ledger_record o
                    where o.site_id = ? and o.kind = ? and o.true_from >= ? and o.true_from <= ? and o.recorded_at <= ?
                      and o.body ->> 'seen' = any(string_to_array(?, ',')) and not o.withdrawn
                      and not exists (select 1 from ledger_record c
                                      where c.site_id = o.site_id and c.corrects = o.id and c.recorded_at <= ?)
                      and exists (select 1 from ledger_record p
                                  where p.site_id = o.site_id and p.subject = o.subject and p.kind = ? and p.item = ?
                                    and p.body ->> 'change' = 'POSTED' and p.true_from <= o.true_from
                                    and (p.true_until is null or p.true_until > o.true_from)
                                    and (p.recorded_at <= ?) is true and not p.withdrawn
                                    and not exists (select 1 from ledger_record q
                                                    where q.site_id = p.site_id and q.corrects = p.id and q.recorded_at <= ?))""",
                    Integer.class,
                    site.id().value(),
                    Kind.OBSERVATION.number(),
                    Timestamp.from(since),
                    Timestamp.from(moment.at()),
                    Timestamp.from(moment.knownAt()),
                    seen,
                    Timestamp.from(moment.knownAt()),
                    Kind.POSTING.number(),
                    id.value(),
                    Timestamp.from(moment.knownAt()),
                    Timestamp.from(moment.knownAt()));
            int off = Objects.requireNonNullElse(count.apply("LIFTED_IN_AREA,NOT_WORN"), 0);
            int worn = Objects.requireNonNullElse(count.apply("WORN_RIGHT"), 0);
            return off + worn == 0 ? null : new Proportion(off, off + worn);
        }
    }
}
