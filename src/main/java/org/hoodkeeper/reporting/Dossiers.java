package org.hoodkeeper.reporting;

import java.time.Duration;
import java.time.Instant;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Supplier;
import org.hoodkeeper.assessment.Dossier;
import org.hoodkeeper.assessment.ModelFile;
import org.hoodkeeper.assessment.ResultShelf;
import org.hoodkeeper.assessment.SetFile;
import org.hoodkeeper.assessment.SupplyFile;
import org.hoodkeeper.assessment.TaskFile;
import org.hoodkeeper.assessment.WorkerFile;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.WashStep;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SupplyId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.programme.RuleShelf;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.rules.SiteRules;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/**
 * Loads what a judgement rests on: for one question in one statement, for a whole board in one for what is shared and one for each
 * part. Reads in one repeatable-read transaction, so that a view never mixes two states of knowledge.
 */
@Component
@Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ, propagation = Propagation.REQUIRED)
public class Dossiers {

    /** How far a plan of the past is followed beyond its end. */
    private static final Duration FOLLOWED = Duration.ofDays(45);

    /** So many subjects are loaded by one statement; for more, what the site has in common is read on its own. */
    private static final int FEW = 64;

    private final RecordLoader loader;
    private final RuleShelf rules;

    Dossiers(RecordLoader loader, RuleShelf rules) {
        this.loader = loader;
        this.rules = rules;
    }

    /** Who and what is asked about: as sets, so that one question and a board load alike. */
    public record Wanted(
            Collection<WorkerId> workers,
            Collection<TaskId> tasks,
            Collection<SetId> sets,
            Map<ModelId, String> models) {}

    /**
     * @param wear the interval to be judged
     * @param known told by then
     */
    public Loaded load(Site site, Wanted wanted, Interval wear, Instant known) {
        if (wanted.workers().size() + wanted.sets().size() > FEW) {
            Loaded shared = shared(site, wanted.tasks(), wear, known);
            return part(shared, wanted.workers(), wanted.sets()).get();
        }
        return loaded(
                site,
                Deciding.AT_ONCE,
                cut(site, wear, known),
                Map.of(
                        "workers", values(wanted.workers()),
                        "sets", values(wanted.sets()),
                        "tasks", values(wanted.tasks()),
                        "sites", List.of(site.id().value()),
                        "models", values(wanted.models().keySet())));
    }

    private static RecordLoader.Cut cut(Site site, Interval wear, Instant known) {
        Instant horizon = known.isBefore(wear.until())
                ? Instant.MAX
                : earlier(known, wear.until().plus(FOLLOWED));
        return new RecordLoader.Cut(
                site.id(), wear.from(), horizon.isBefore(wear.until()) ? wear.until() : horizon, known);
    }

    private Loaded loaded(
            Site site, Reading.Statement statement, RecordLoader.Cut cut, Map<String, Collection<UUID>> ids) {
        Records records = new Records();
        loader.load(records, statement, cut, ids);
        records.sort();
        SiteRules book = new SiteRules(
                site.zone(),
                site.firstRuleSet(),
                rules.knownAt(cut.known()),
                records.<SiteDecision>about(site.id().value(), Kind.SITE_DECISION));
        return new Loaded(site, records, book, cut);
    }

    /**
     * What the people and sets of a site have in common, for many parts of them at a moment: tasks, limits and decisions, all models,
     * instruments and supplies.
     *
     * @param wear the interval to be judged
     * @param known told by then
     */
    Loaded shared(Site site, Collection<TaskId> tasks, Interval wear, Instant known) {
        return loaded(
                site,
                Deciding.SHARED,
                cut(site, wear, known),
                Map.of(
                        "tasks", values(tasks),
                        "sites", List.of(site.id().value())));
    }

    /**
     * Reads the records of some people and sets. What comes back makes files of them, without the database: it may be asked on
     * another thread, while the next part is read, and one part after the other.
     */
    Supplier<Loaded> part(Loaded shared, Collection<WorkerId> workers, Collection<SetId> sets) {
        List<RecordLoader.Row> rows =
                loader.read(Deciding.PART, shared.cut, Map.of("workers", values(workers), "sets", values(sets)));
        // what was read need not stay while it is judged, and files without it would hold nobody
        AtomicReference<@Nullable List<RecordLoader.Row>> once = new AtomicReference<>(rows);
        return () -> {
            List<RecordLoader.Row> mine = Objects.requireNonNull(once.getAndSet(null), "a part makes its files once");
            Records records = new Records(shared.records);
            RecordLoader.add(records, mine);
            records.sort();
            return new Loaded(shared, records);
        };
    }

    /** The same files with those of further sets and tasks: some hundreds of them at most. */
    Loaded more(Loaded loaded, Collection<TaskId> tasks, Collection<SetId> sets) {
        // of a subject that was read as shared the same records come again, whole; its task files are made anew
        loader.load(
                loaded.records,
                Deciding.MORE,
                loaded.cut,
                Map.of("sets", values(sets), "tasks", values(tasks), "models", List.of()));
        loaded.records.sort();
        return new Loaded(loaded.site, loaded.records, loaded.rules, loaded.cut);
    }

    private static List<UUID> of(@Nullable InstrumentId instrument) {
        return instrument == null ? List.of() : List.of(instrument.value());
    }

    private static Set<UUID> values(Collection<? extends org.hoodkeeper.kernel.Id> ids) {
        Set<UUID> values = new HashSet<>();
        ids.forEach(id -> values.add(id.value()));
        return values;
    }

    private static Instant earlier(Instant one, Instant other) {
        return one.isBefore(other) ? one : other;
    }

    /** What was loaded, cut into files. */
    public static final class Loaded {

        private final Site site;
        private final Records records;
        private final SiteRules rules;
        private final RecordLoader.Cut cut;
        private final @Nullable Loaded shared;
        private final Map<WorkerId, WorkerFile> workers = new HashMap<>();
        private final Map<TaskId, TaskFile> tasks = new HashMap<>();
        private final Map<SetId, SetFile> sets = new HashMap<>();

        Loaded(Site site, Records records, SiteRules rules, RecordLoader.Cut cut) {
            this(site, records, rules, cut, null);
        }

        /** Files of some people and sets. @param shared has those of their tasks, models, supplies and instruments */
        private Loaded(Loaded shared, Records records) {
            this(shared.site, records, shared.rules, shared.cut, shared);
        }

        private Loaded(Site site, Records records, SiteRules rules, RecordLoader.Cut cut, @Nullable Loaded shared) {
            this.site = site;
            this.records = records;
            this.rules = rules;
            this.cut = cut;
            this.shared = shared;
        }

        /** What begins from then on was not looked at. */
        Instant horizon() {
            return cut.horizon();
        }

        public SiteRules rules() {
            return rules;
        }

        /** The dossier of one question. @param label the set's, for its file; none where a model is asked about */
        public Dossier dossier(
                WorkerId worker,
                TaskId task,
                @Nullable SetId set,
                @Nullable String label,
                ModelId model,
                String modelCode) {
            return new Dossier(
                    site.zone(),
                    worker(worker),
                    task(task),
                    set == null || label == null ? null : set(set, label),
                    model(model, modelCode),
                    this::supply,
                    rules,
                    cut.horizon());
        }

        public WorkerFile worker(WorkerId id) {
            return workers.computeIfAbsent(id, any -> {
                UUID key = id.value();
                return new WorkerFile(
                        id,
                        records.about(key, Kind.TRAINING),
                        records.about(key, Kind.MEDICAL_OUTCOME),
                        records.about(key, Kind.SYMPTOM_REPORT),
                        records.about(key, Kind.FIT_TEST),
                        records.about(key, Kind.OBSERVATION),
                        records.about(key, Kind.POSTING),
                        records.about(key, Kind.HOLD),
                        records.about(key, Kind.WEAR),
                        records.about(key, Kind.BOOKING));
            });
        }

        /** What was worked out for a task is kept with it, for all parts of its people. */
        public TaskFile task(TaskId id) {
            if (shared != null) {
                return shared.task(id);
            }
            return tasks.computeIfAbsent(id, any -> {
                UUID key = id.value();
                Map<String, List<Told<Limit>>> limits =
                        records.byScope(site.id().value(), Kind.LIMIT);
                return new TaskFile(
                        id,
                        records.about(key, Kind.TASK_BASIS),
                        records.about(key, Kind.TASK_TRIGGER),
                        records.about(key, Kind.HOLD),
                        records.about(key, Kind.MEASURED_CONDITION),
                        new ResultShelf(records.about(key, Kind.EXPOSURE_RESULT)),
                        limits);
            });
        }

        public ModelFile model(ModelId id, String code) {
            return new ModelFile(id, code, records.about(id.value(), Kind.MODEL));
        }

        public SetFile set(SetId id, String label) {
            return sets.computeIfAbsent(id, any -> {
                UUID key = id.value();
                return new SetFile(
                        id,
                        label,
                        records.about(key, Kind.SET),
                        records.about(key, Kind.CUSTODY),
                        records.about(key, Kind.FLOW_CHECK),
                        records.about(key, Kind.EXAMINATION),
                        records.about(key, Kind.CLEANING),
                        records.about(key, Kind.PART_CHANGE),
                        records.about(key, Kind.DEFECT),
                        records.about(key, Kind.HOLD),
                        records.about(key, Kind.PRE_USE_CHECK),
                        records.naming(key, Kind.WEAR),
                        washes(key),
                        records.about(key, Kind.BATTERY_TEST),
                        ofInstruments(key, Kind.CALIBRATION),
                        ofInstruments(key, Kind.HOLD));
            });
        }

        private List<Told<WashStep>> washes(UUID set) {
            List<Told<WashStep>> stripped = records.naming(set, Kind.WASH_STEP);
            if (stripped.isEmpty()) {
                return List.of();
            }
            Set<String> batches = new HashSet<>();
            for (Told<WashStep> told : stripped) {
                if (told.scope() != null) {
                    batches.add(told.scope());
                }
            }
            return records.<WashStep>about(site.id().value(), Kind.WASH_STEP).stream()
                    .filter(told -> batches.contains(told.scope()))
                    .toList();
        }

        private <F extends Fact> Map<InstrumentId, List<Told<F>>> ofInstruments(UUID set, Kind kind) {
            Set<UUID> named = new HashSet<>();
            records.<FlowCheck>about(set, Kind.FLOW_CHECK)
                    .forEach(told -> named.add(told.fact().instrument().value()));
            records.<Examination>about(set, Kind.EXAMINATION)
                    .forEach(told -> named.addAll(of(told.fact().indicator())));
            records.<PreUseCheck>about(set, Kind.PRE_USE_CHECK)
                    .forEach(told -> named.addAll(of(told.fact().indicator())));
            Map<InstrumentId, List<Told<F>>> told = new HashMap<>();
            named.forEach(id -> told.put(new InstrumentId(id), records.about(id, kind)));
            return told;
        }

        private @Nullable SupplyFile supply(SupplyId id) {
            UUID key = id.value();
            return new SupplyFile(
                    id,
                    records.about(key, Kind.AIR_TEST),
                    records.about(key, Kind.SUPPLY_MOVE),
                    records.about(key, Kind.PURIFIER_TAG),
                    records.about(key, Kind.HOLD));
        }

        /** What a judgement of the set rests on: itself, its model and supply, and the instruments that measured it. */
        Set<UUID> restsOn(SetId set) {
            Set<UUID> rests = new HashSet<>();
            rests.add(set.value());
            ofInstruments(set.value(), Kind.CALIBRATION).keySet().forEach(id -> rests.add(id.value()));
            for (Told<SetData> told : records.<SetData>about(set.value(), Kind.SET)) {
                rests.add(told.fact().model().value());
                if (told.fact().supply() != null) {
                    rests.add(told.fact().supply().value());
                }
            }
            return rests;
        }

        /** What the set was at the start; where it came later, what it was first. */
        public @Nullable SetData data(SetId set) {
            SetData first = null;
            for (Told<SetData> told : records.<SetData>about(set.value(), Kind.SET)) {
                first = told.fact();
                if (!told.from().isAfter(cut.start())) {
                    return first;
                }
            }
            return first;
        }
    }
}
