package org.hoodkeeper.reporting;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Assessment;
import org.hoodkeeper.assessment.OtherWays;
import org.hoodkeeper.assessment.Question;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Wall;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.facts.BatteryTest;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.facts.MeasuredCondition;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Observation;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.Posting;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.PurifierTag;
import org.hoodkeeper.facts.Recall;
import org.hoodkeeper.facts.RecallDecision;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.SilicaAir;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.facts.SupplyMove;
import org.hoodkeeper.facts.SymptomReport;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.TaskTrigger;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.facts.WashStep;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SupplyId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.people.People;
import org.hoodkeeper.people.Worker;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.programme.RuleShelf;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.rules.SiteRules;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Over whole random histories with corrections and late entries, the answer from the records that a loader picks is the answer
 * from all of them. The seed is the test's name: a failure can be played again.
 */
@SpringBootTest
@Tag("containers")
class LoaderTests {

    private static final ZoneId ZONE = ZoneId.of("Europe/London");
    private static final AtomicInteger SITES = new AtomicInteger();
    private static final String EVERYTHING = """
            with a as (select ?::uuid as site, ?::timestamptz as start, ?::timestamptz as horizon, ?::timestamptz as known,
                              ?::uuid[] as sites)
            select r.kind, r.id, r.subject, r.item, r.scope, r.true_from, r.true_until, r.recorded_at, r.corrects, r.body::text
            from ledger_record r, a
            where r.site_id = a.site and r.recorded_at <= a.known and not r.withdrawn
              and r.true_from < greatest(a.horizon, a.start) and r.site_id = any(a.sites)
              and not exists (select 1 from ledger_record c
                              where c.site_id = r.site_id and c.corrects = r.id and c.recorded_at <= a.known)""";

    @Autowired
    SiteRegister sites;

    @Autowired
    People people;

    @Autowired
    Kit kit;

    @Autowired
    Programme programme;

    @Autowired
    Ledger ledger;

    @Autowired
    Dossiers dossiers;

    @Autowired
    RecordLoader loader;

    @Autowired
    Rounds rounds;

    @Autowired
    Standings standings;

    @Autowired
    Hindsight hindsight;

    @Autowired
    RuleShelf shelf;

    @Autowired
    TransactionTemplate transaction;

    @Autowired
    JdbcTemplate jdbc;

    private Random random = new Random();
    private Site site;
    private Author author;
    private Instant now = Instant.EPOCH;
    private final List<WorkerId> workers = new ArrayList<>();
    private final List<SetId> sets = new ArrayList<>();
    private final Map<SetId, String> labels = new java.util.HashMap<>();
    private final Map<SetId, ModelId> modelOf = new java.util.HashMap<>();
    private final Map<ModelId, String> models = new java.util.LinkedHashMap<>();
    private TaskId task = new TaskId(UUID.randomUUID());
    private InstrumentId instrument = new InstrumentId(UUID.randomUUID());
    private SupplyId supply = new SupplyId(UUID.randomUUID());
    private final List<Told> told = new ArrayList<>();
    private final List<String> batches = new ArrayList<>();

    private record Told(RecordId id, Draft draft) {}

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6})
    void whatALoaderPicksDecidesAsTheWholeHistoryDoes(long seed) {
        random = new Random(seed);
        layTheSite();
        for (int step = 0; step < 160; step++) {
            now = now.plus(Duration.ofMinutes(random.nextInt(60 * 30)));
            TestClock.set(now);
            something();
            if (step % 8 == 7) {
                compare();
            }
        }
    }

    /** As a server of one's own does by default: a question took it a quarter of a second. */
    @Test
    void theServerDoesNotCompileWhatIsLoaded() {
        assertThat(jdbc.queryForList(
                        "select setting || ' by ' || source from pg_settings where name = 'jit'", String.class))
                .containsExactly("off by session");
    }

    /** After each kind of write, told late and corrected, and at each instant at which the calendar may change something. */
    @ParameterizedTest
    @ValueSource(longs = {11, 12, 13})
    void theBoardThatIsKeptIsTheBoardJudgedAnew(long seed) {
        everybodyPosted(seed);
        for (int step = 0; step < 90; step++) {
            now = now.plus(Duration.ofMinutes(random.nextInt(60 * 30)));
            TestClock.set(now);
            something();
            keptAsAnew("step " + step);
        }
        for (int hop = 0; hop < 60; hop++) {
            Instant next = keptAsAnew("hop " + hop).stream()
                    .map(Standing::holdsUntil)
                    .min(Instant::compareTo)
                    .orElse(Instant.MAX);
            if (!next.isBefore(now.plus(Duration.ofDays(400)))) {
                break;
            }
            TestClock.set(next);
            keptAsAnew("at " + next);
        }
    }

    /** Judged a second time are only those of whom something was told since: no verdict may differ from judging everybody. */
    @ParameterizedTest
    @ValueSource(longs = {21, 22, 23})
    void aPastMomentAsKnownNowIsWhatJudgingEverybodyAnewSays(long seed) {
        everybodyPosted(seed);
        Instant begin = now;
        for (int step = 0; step < 150; step++) {
            now = now.plus(Duration.ofMinutes(random.nextInt(60 * 20)));
            TestClock.set(now);
            something();
        }
        int turned = 0;
        List<Worker> all = in(() -> people.all(site.id()));
        for (int look = 0; look < 60; look++) {
            Instant at = begin.plusSeconds(
                    random.nextInt((int) Duration.between(begin, now).toSeconds()));
            Hindsight.Both both = in(() -> hindsight.judge(site, at, now, all));
            List<Standing> anew = in(() -> rounds.judge(site, Hindsight.known(at, now), all, 2));
            assertThat(verdicts(both.known())).as("at " + at).isEqualTo(verdicts(anew));
            turned += verdicts(both.known()).equals(verdicts(both.then())) ? 0 : 1;
        }
        assertThat(turned).as("moments of which more is known now").isPositive();
    }

    /** What is not looked at, because it cannot help, would indeed be barred: by the same requirement. */
    @ParameterizedTest
    @ValueSource(longs = {31, 32, 33})
    void aWayThatIsNotLookedAtIsNone(long seed) {
        everybodyPosted(seed);
        List<TaskId> tasks = withASecondTaskAndASecondHood();
        Map<String, Integer> followed = new java.util.TreeMap<>();
        for (int step = 0; step < 160; step++) {
            now = now.plus(Duration.ofMinutes(random.nextInt(60 * 30)));
            TestClock.set(now);
            something();
            if (step % 8 == 7) {
                Interval wear = new Interval(now, now.plus(Duration.ofHours(4)));
                workers.forEach(worker -> followWays(worker, tasks, wear, followed));
            }
        }
        assertThat(followed.keySet())
                .contains(
                        "set SYMPTOM_REVIEW REVIEW_OPEN",
                        "set TASK_TRIGGER TRIGGER_OPEN",
                        "model TRAINING MISSING",
                        "task TRAINING MISSING",
                        "task KIT_HOLD HELD",
                        "task EXAMINATION MISSING",
                        "task FLOW MISSING",
                        "task CLEAN WORN_BY_ANOTHER",
                        "untrained");
    }

    private List<TaskId> withASecondTaskAndASecondHood() {
        return in(() -> {
            SetId hood = kit.addSet(
                    author, "S-H20-2", new SetData(modelNamed("H20"), "M", "R1", null, false, null, null), now);
            sets.add(hood);
            labels.put(hood, "S-H20-2");
            modelOf.put(hood, modelNamed("H20"));
            TaskId second = programme.addTask(author, "T2", basis("0.3"), now);
            for (WorkerId worker : workers) {
                ledger.append(
                        author,
                        Draft.of(new Posting(Posting.Change.POSTED), worker, now)
                                .item(second));
            }
            return List.of(task, second);
        });
    }

    private ModelId modelNamed(String code) {
        return Questions.model(models, code);
    }

    private void followWays(WorkerId worker, List<TaskId> tasks, Interval wear, Map<String, Integer> followed) {
        Dossiers.Loaded loaded =
                in(() -> dossiers.load(site, new Dossiers.Wanted(List.of(worker), tasks, sets, models), wear, now));
        Map<TaskId, Map<SetId, Answer>> all = new java.util.HashMap<>();
        for (TaskId at : tasks) {
            for (SetId set : sets) {
                Question question = Question.ofSet(site.id(), worker, at, set, wear, now);
                all.computeIfAbsent(at, any -> new java.util.HashMap<>())
                        .put(
                                set,
                                Assessment.judge(
                                        question, Questions.dossier(question, labels.get(set), models, loaded)));
            }
        }
        addedToAPart(worker, tasks, wear, all);
        all.forEach((at, answers) -> answers.forEach((set, answer) -> {
            for (Reason reason : answer.reasons()) {
                if (OtherWays.barsWhateverSet(reason)) {
                    sets.forEach(other -> bars(followed, "set", answers.get(other), reason));
                }
                if (OtherWays.barsModel(reason)) {
                    sets.stream()
                            .filter(other -> modelOf.get(other).equals(modelOf.get(set)))
                            .forEach(other -> bars(followed, "model", answers.get(other), reason));
                }
                if (OtherWays.barsWhateverTask(reason)) {
                    tasks.forEach(other -> bars(followed, "task", all.get(other).get(set), reason));
                }
            }
            Set<String> trained = OtherWays.trainedOn(
                    answer.question(), loaded.worker(worker), loaded.rules().at(now));
            if (trained != null && !trained.contains(models.get(modelOf.get(set)))) {
                assertThat(barred(answer)).anyMatch(bar -> bar.startsWith("TRAINING "));
                followed.merge("untrained", 1, Integer::sum);
            }
        }));
    }

    /** As for somebody with more sets in hand than are read at once: what is added later decides as if read with the rest. */
    private void addedToAPart(WorkerId worker, List<TaskId> tasks, Interval wear, Map<TaskId, Map<SetId, Answer>> all) {
        Dossiers.Loaded part = in(() -> {
            Dossiers.Loaded shared = dossiers.shared(site, tasks.subList(0, 1), wear, now);
            Dossiers.Loaded first =
                    dossiers.part(shared, List.of(worker), sets.subList(0, 1)).get();
            return dossiers.more(first, tasks.subList(1, tasks.size()), sets.subList(1, sets.size()));
        });
        all.forEach((at, answers) -> answers.forEach((set, answer) -> assertThat(Assessment.judge(
                                answer.question(), Questions.dossier(answer.question(), labels.get(set), models, part))
                        .reasons())
                .isEqualTo(answer.reasons())));
    }

    private static void bars(Map<String, Integer> followed, String way, Answer other, Reason reason) {
        String what = reason.kind() + " " + reason.why();
        assertThat(barred(other)).as(way + ": " + reason).contains(what);
        followed.merge(way + " " + what, 1, Integer::sum);
    }

    private static List<String> barred(Answer answer) {
        return answer.reasons().stream()
                .filter(reason -> reason.result().bars())
                .map(reason -> reason.kind() + " " + reason.why())
                .toList();
    }

    /** With how much bars and what bars first: in a random history hardly anybody is ever cleared. */
    private static List<String> verdicts(List<Standing> standings) {
        List<String> verdicts = new ArrayList<>();
        for (Standing standing : standings) {
            for (Wall.View view : Wall.View.values()) {
                for (BoardRow row : standing.rows(view)) {
                    Assessment.Glance glance = row.glance();
                    verdicts.add(standing.worker().number() + " " + view + " "
                            + (glance == null
                                    ? "not judged"
                                    : glance.verdict() + " " + glance.open() + " " + glance.first()));
                }
            }
        }
        return verdicts;
    }

    private void everybodyPosted(long seed) {
        random = new Random(seed);
        layTheSite();
        in(() -> {
            for (WorkerId worker : workers) {
                ledger.append(
                        author,
                        Draft.of(new Posting(Posting.Change.POSTED), worker, now)
                                .item(task));
            }
            return null;
        });
    }

    /** Judged anew are one after the other, as a site is whose people are too many to be read at once. */
    private List<Standing> keptAsAnew(String when) {
        Standings.Kept kept = SiteBinding.in(site.id(), () -> standings.of(site));
        List<Standing> anew = in(() -> rounds.judge(site, Moment.of(null, false, kept.at()), people.all(site.id()), 1));
        assertThat(shown(kept.everyone())).as(when).isEqualTo(shown(anew));
        return anew;
    }

    private static List<String> shown(java.util.Collection<Standing> standings) {
        List<String> shown = new ArrayList<>();
        for (Standing standing : standings) {
            for (BoardRow row : standing.rows(Wall.View.WHOLE)) {
                shown.add(standing.worker().number() + " " + row.set() + " " + row.model() + " " + row.size() + " "
                        + shown(row));
            }
            standing.rows(Wall.View.COLLAPSED).forEach(row -> shown.add(shown(row)));
        }
        return shown;
    }

    private static String shown(BoardRow row) {
        Assessment.Glance glance = row.glance();
        return glance == null
                ? "not judged"
                : glance.verdict() + " " + glance.first() + " " + glance.open() + " " + glance.dueSoon();
    }

    private void layTheSite() {
        now = Instant.parse("2026-01-05T06:00:00Z");
        TestClock.set(now);
        site = sites.open(
                "loader-" + SITES.incrementAndGet() + "-"
                        + ProcessHandle.current().pid(),
                "Loader",
                ZONE,
                "uk");
        author = new Author(site.id(), new AccountId(UUID.randomUUID()), Author.Via.FORM);
        in(() -> {
            workers.add(people.register(site.id(), "W1", "One", null));
            workers.add(people.register(site.id(), "W2", "Two", null));
            workers.add(people.register(site.id(), "W3", "Three", null));
            instrument = kit.addInstrument(site.id(), "FI");
            supply = kit.addSupply(site.id(), "C1");
            ModelId hood = kit.addModel(author, "H20", model(InterfaceType.POWERED_HOOD, "TH2", 480, 24), now);
            ModelId mask = kit.addModel(author, "M20", model(InterfaceType.HALF_MASK, "half P3", null, null), now);
            ModelId air =
                    kit.addModel(author, "A40", model(InterfaceType.AIRLINE_HOOD, "14594-3 hood", null, null), now);
            models.put(hood, "H20");
            models.put(mask, "M20");
            models.put(air, "A40");
            for (ModelId model : List.of(hood, mask, air)) {
                String label = "S-" + models.get(model);
                SetId set = kit.addSet(
                        author,
                        label,
                        new SetData(model, "M", "R1", model.equals(air) ? supply : null, false, null, null),
                        now);
                sets.add(set);
                labels.put(set, label);
                modelOf.put(set, model);
            }
            task = programme.addTask(author, "T1", basis("1.2"), now);
            programme.decide(author, "battery.test-interval", new SiteDecision("P90D", "officer", "tried"), now);
            ledger.append(
                    author,
                    Draft.of(
                                    new Limit(
                                            new BigDecimal("0.1"),
                                            "mg/m3",
                                            null,
                                            Set.of(FilterKind.PARTICLE),
                                            false,
                                            "x",
                                            Mark.INVENTED),
                                    site.id(),
                                    now)
                            .scope("silica"));
            return null;
        });
    }

    private ModelData model(InterfaceType type, String ukClass, Integer battery, Integer life) {
        return new ModelData(
                "x",
                type,
                Map.of("uk", ukClass),
                false,
                Set.of("M"),
                "R1",
                type.hasFlow() ? new BigDecimal("170") : null,
                ModelData.FlowAt.LOCAL,
                battery,
                Set.of(FilterKind.PARTICLE),
                List.of(new ModelData.Product("p", new BigDecimal("70"), "%", 60)),
                null,
                List.of(
                        new ModelData.Slot("visor", Set.of("V"), life),
                        new ModelData.Slot("filter", Set.of("V"), null),
                        new ModelData.Slot("Filter", Set.of("V"), null)));
    }

    private static TaskBasis basis(String exposure) {
        return SilicaAir.of(exposure);
    }

    private <T> T pick(List<T> from) {
        return from.get(random.nextInt(from.size()));
    }

    /** A model may call its filter by a name of its own. */
    private static String spelled(String place, Instant at) {
        return place.equals("filter") && at.getEpochSecond() / 60 % 2 == 0 ? "Filter" : place;
    }

    /** Mostly told at once, sometimes days late, never ahead. */
    private Instant when() {
        int late = random.nextInt(4) == 0 ? random.nextInt(60 * 24 * 20) : random.nextInt(90);
        return now.minus(Duration.ofMinutes(late));
    }

    private void something() {
        if (!told.isEmpty() && random.nextInt(9) == 0) {
            correctOrWithdraw();
            return;
        }
        Draft draft = draft();
        RecordId id = in(() -> ledger.append(author, draft));
        told.add(new Told(id, draft));
    }

    private void correctOrWithdraw() {
        Told wrong = told.remove(random.nextInt(told.size()));
        if (random.nextBoolean()) {
            in(() -> ledger.withdraw(author, wrong.draft().correcting(wrong.id(), "wrong")));
            return;
        }
        Draft old = wrong.draft();
        Instant shifted = old.from().minus(Duration.ofMinutes(random.nextInt(60 * 24 * 5)));
        Draft right = new Draft(old.fact(), old.subject(), old.item(), old.scope(), shifted, null, null, null, null)
                .correcting(wrong.id(), "wrong time");
        told.add(new Told(in(() -> ledger.append(author, right)), right));
    }

    private Draft draft() {
        WorkerId worker = pick(workers);
        SetId set = pick(sets);
        Instant at = when();
        Outcome outcome = random.nextInt(5) == 0 ? Outcome.FAIL : Outcome.PASS;
        return switch (random.nextInt(30)) {
            case 0, 1 ->
                Draft.of(new Training(outcome, random.nextInt(6) != 0, null, false, null), worker, at)
                        .scope(pick(List.copyOf(models.values())));
            case 2 ->
                Draft.of(
                                new FitTest(
                                        FitTest.Method.QUALITATIVE,
                                        null,
                                        List.of(),
                                        outcome,
                                        random.nextBoolean(),
                                        null),
                                worker,
                                at)
                        .scope("M20/M/" + (random.nextInt(4) == 0 ? "R2" : "R1"));
            case 3 -> Draft.of(medical(), worker, at);
            case 4 -> step(worker, at, SymptomReport.class);
            case 5 -> Draft.of(new Observation(pick(List.of(Observation.Seen.values())), null), worker, at);
            case 6, 7 ->
                Draft.of(new Posting(random.nextInt(5) == 0 ? Posting.Change.ENDED : Posting.Change.POSTED), worker, at)
                        .item(task)
                        .until(random.nextInt(3) == 0 ? at.plus(Duration.ofDays(1L + random.nextInt(40))) : null);
            case 8 -> step(pick(List.of(worker, set, instrument)), at, Hold.class);
            case 9, 10 -> wear(worker, set, at);
            case 11 -> Draft.of(check(outcome), set, at).item(worker);
            case 12, 13 -> custody(worker, set, at);
            case 14 ->
                Draft.of(
                        new Examination(
                                outcome,
                                random.nextInt(4) == 0 ? null : new BigDecimal(150 + random.nextInt(60)),
                                instrument,
                                null,
                                null),
                        set,
                        at);
            case 15, 16 ->
                Draft.of(
                        new FlowCheck(
                                new BigDecimal(150 + random.nextInt(60)),
                                instrument,
                                null,
                                null,
                                null,
                                null,
                                null,
                                outcome),
                        set,
                        at);
            case 17, 18 -> Draft.of(cleaning(), set, at);
            case 19 ->
                Draft.of(
                                new PartChange(
                                        random.nextInt(4) == 0 ? "OTHER" : "V",
                                        null,
                                        null,
                                        random.nextInt(4) == 0 ? null : LocalDate.of(2024 + random.nextInt(3), 3, 1),
                                        random.nextInt(4) != 0,
                                        null),
                                set,
                                at)
                        .scope(spelled(pick(List.of("visor", "filter", "battery")), at));
            case 20 -> step(set, at, Defect.class);
            case 21 ->
                Draft.of(
                        new Calibration(
                                outcome,
                                random.nextInt(5) != 0,
                                BigDecimal.ONE,
                                null,
                                new BigDecimal("20"),
                                new BigDecimal("1013.25"),
                                at.atZone(ZONE).toLocalDate().plusDays(random.nextInt(200)),
                                null,
                                null),
                        instrument,
                        at);
            case 22 ->
                random.nextInt(3) == 0
                        ? Draft.of(new SupplyMove("bay"), supply, at)
                        : Draft.of(airTest(outcome), supply, at);
            case 23, 24 -> washStep(set, at);
            case 25 ->
                random.nextBoolean()
                        ? Draft.of(
                                new BatteryTest(
                                        200 + random.nextInt(300),
                                        random.nextBoolean(),
                                        random.nextBoolean() ? "A-1" : null,
                                        null),
                                set,
                                at)
                        : Draft.of(
                                new PurifierTag(
                                        "P", at.atZone(ZONE).toLocalDate().plusDays(random.nextInt(60))),
                                supply,
                                at);
            default -> aboutTheTask(at);
        };
    }

    private Draft aboutTheTask(Instant at) {
        return switch (random.nextInt(8)) {
            case 0 -> Draft.of(basis(pick(List.of("0.5", "1.2", "2.5"))), task, at);
            case 1 -> step(task, at, TaskTrigger.class);
            case 2 ->
                Draft.of(
                        new MeasuredCondition(MeasuredCondition.Quantity.WBGT, new BigDecimal(24 + random.nextInt(8))),
                        task,
                        at);
            case 3, 4 ->
                Draft.of(
                                new ExposureResult(
                                        new BigDecimal(1 + random.nextInt(30)).movePointLeft(1),
                                        random.nextInt(12) == 0 ? "ppm" : "mg/m3",
                                        random.nextInt(6) == 0,
                                        null,
                                        null,
                                        null,
                                        null,
                                        random.nextInt(5) == 0 ? "cutters" : null,
                                        random.nextInt(6) == 0 ? ExposureResult.Period.SHORT_TERM : null,
                                        List.of()),
                                task,
                                at)
                        .scope(random.nextInt(8) == 0 ? "cobalt" : "silica");
            case 7 ->
                Draft.of(
                        new Recall(
                                null,
                                "visor",
                                null,
                                "L1",
                                Set.of(),
                                null,
                                null,
                                Recall.Remedy.STOP_NOW,
                                null,
                                null,
                                "r"),
                        site.id(),
                        at);
            case 6 ->
                Draft.of(new SiteDecision(pick(List.of("PT5H", "PT40H")), "o", "r"), site.id(), at)
                        .scope("filter.longest-use/H20");
            default ->
                Draft.of(
                                new SiteDecision(pick(List.of("P6M", "P12M", "P1M")), "o", "r"),
                                site.id(),
                                at.plus(Duration.ofHours(random.nextInt(100))))
                        .scope("training.interval");
        };
    }

    private MedicalOutcome medical() {
        MedicalOutcome.Result result = pick(List.of(MedicalOutcome.Result.values()));
        boolean limits = result == MedicalOutcome.Result.FIT_WITH_LIMITS;
        return new MedicalOutcome(
                result,
                limits && random.nextBoolean() ? Set.of(InterfaceType.POWERED_HOOD) : Set.of(),
                limits && random.nextBoolean() ? 60 + random.nextInt(300) : null,
                limits && random.nextBoolean() ? new BigDecimal(26 + random.nextInt(4)) : null,
                null,
                false,
                random.nextBoolean() ? now.atZone(ZONE).toLocalDate().plusDays(random.nextInt(60)) : null,
                null);
    }

    private static PreUseCheck check(Outcome outcome) {
        Map<PreUseCheck.Item, Outcome> items = new EnumMap<>(PreUseCheck.Item.class);
        for (PreUseCheck.Item item : PreUseCheck.Item.values()) {
            items.put(item, item == PreUseCheck.Item.VISOR ? outcome : Outcome.PASS);
        }
        return new PreUseCheck(items, new BigDecimal("185"), null, outcome, 90, null);
    }

    private Cleaning cleaning() {
        return switch (random.nextInt(4)) {
            case 0 -> new Cleaning(Cleaning.Method.WIPE, null, null, null, null, null);
            case 1 -> new Cleaning(Cleaning.Method.WASH, null, null, null, null, null);
            default ->
                new Cleaning(
                        Cleaning.Method.WASH_AND_DISINFECT,
                        "p",
                        new BigDecimal("70"),
                        "%",
                        30 + 40 * random.nextInt(3),
                        null);
        };
    }

    /** A set goes into a basket, alone or with the last one, or the basket goes a step on; out of any order. */
    private Draft washStep(SetId set, Instant at) {
        boolean goesIn = batches.isEmpty() || random.nextInt(3) == 0;
        if (goesIn && (batches.isEmpty() || random.nextBoolean())) {
            batches.add(UUID.randomUUID().toString());
        }
        WashStep.Step step = goesIn
                ? WashStep.Step.STRIPPED
                : pick(List.of(
                        WashStep.Step.WASHED, WashStep.Step.WETTED, WashStep.Step.DRY, WashStep.Step.BROKEN_OFF));
        return Draft.of(new WashStep(step, null, null, null, null), site.id(), at)
                .item(goesIn ? set : null)
                .scope(batches.get(batches.size() - 1));
    }

    private Draft wear(WorkerId worker, SetId set, Instant at) {
        Wear.Step step = pick(List.of(Wear.Step.values()));
        Instant end = at.plus(Duration.ofMinutes(1L + random.nextInt(300)));
        if (step == Wear.Step.WHOLE && !end.isAfter(now)) {
            return Draft.of(new Wear(task, step), worker, at).item(set).until(end);
        }
        // whoever is still in there has an entry and no end
        return Draft.of(new Wear(task, step == Wear.Step.WHOLE ? Wear.Step.ENTRY : step), worker, at)
                .item(set);
    }

    private Draft custody(WorkerId worker, SetId set, Instant at) {
        Custody.Claim claim = pick(List.of(
                Custody.Claim.ISSUED,
                Custody.Claim.ISSUED,
                Custody.Claim.RETURNED,
                Custody.Claim.RETURNED,
                Custody.Claim.MISSING,
                Custody.Claim.FOUND));
        Boolean worn = claim == Custody.Claim.RETURNED && random.nextBoolean() ? random.nextBoolean() : null;
        return Draft.of(new Custody(claim, worn, null), set, at).item(claim == Custody.Claim.ISSUED ? worker : null);
    }

    /** Opens something, or closes what was opened about the same subject. */
    private Draft step(Id subject, Instant at, Class<?> kind) {
        Told open = random.nextBoolean()
                ? null
                : told.stream()
                        .filter(one -> kind.isInstance(one.draft().fact())
                                && one.draft().subject().equals(subject.value())
                                && one.draft().item() == null
                                && !one.draft().from().isAfter(at))
                        .findFirst()
                        .orElse(null);
        Id closes = open == null ? null : open.id();
        if (kind == Hold.class && sets.contains(subject) && random.nextInt(3) == 0) {
            return recalled(subject, at);
        }
        if (kind == Hold.class) {
            Hold.Why why = pick(List.of(Hold.Why.DEFECT, Hold.Why.UNDER_REPAIR, Hold.Why.OTHER));
            return Draft.of(new Hold(open == null ? Hold.Step.PLACED : Hold.Step.RELEASED, why, null), subject, at)
                    .item(closes);
        }
        if (kind == Defect.class) {
            return Draft.of(
                            new Defect(open == null ? Defect.Step.FOUND : Defect.Step.MENDED, "visor", null),
                            subject,
                            at)
                    .item(closes);
        }
        if (kind == TaskTrigger.class) {
            return Draft.of(
                            new TaskTrigger(
                                    open == null ? TaskTrigger.Step.OPENED : TaskTrigger.Step.CLOSED, "tool", null),
                            subject,
                            at)
                    .item(closes);
        }
        return Draft.of(
                        new SymptomReport(
                                open == null ? SymptomReport.Step.REPORTED : SymptomReport.Step.REVIEWED, null),
                        subject,
                        at)
                .item(closes);
    }

    /** What a recall tells: a hold that may bar from a later day on, or a decision; neither is ever released before it begins. */
    private Draft recalled(Id subject, Instant at) {
        if (random.nextInt(6) == 0) {
            return Draft.of(new RecallDecision("looked at"), subject, at).item(new RecordId(UUID.randomUUID()));
        }
        Instant bars = random.nextBoolean() ? at : at.plus(Duration.ofHours(random.nextInt(24 * 20)));
        return Draft.of(new Hold(Hold.Step.PLACED, Hold.Why.RECALL, null), subject, bars)
                .scope(UUID.randomUUID().toString());
    }

    private void compare() {
        for (int i = 0; i < 3; i++) {
            SetId set = pick(sets);
            WorkerId worker = pick(workers);
            Instant from = now.plus(Duration.ofMinutes(random.nextInt(60 * 24 * 60) - 60 * 24 * 45));
            Interval wear = new Interval(from, from.plus(Duration.ofMinutes(1L + random.nextInt(600))));
            Instant known = random.nextBoolean()
                    ? now.plusSeconds(1)
                    : now.minus(Duration.ofMinutes(random.nextInt(60 * 24 * 30)));
            Question question = Question.ofSet(site.id(), worker, task, set, wear, known);
            Answer picked = in(() -> Assessment.judge(question, dossierPicked(question)));
            Answer whole = in(() -> Assessment.judge(question, dossierOfAll(question)));
            assertThat(told(picked))
                    .as("%s %s known %s", labels.get(set), wear, known)
                    .isEqualTo(told(whole));
        }
    }

    private static List<String> told(Answer answer) {
        List<String> lines = new ArrayList<>();
        lines.add(answer.verdict() + " " + answer.window() + " " + answer.dueSoon() + " " + answer.clearBy());
        for (int i = 0; i < answer.reasons().size(); i++) {
            lines.add(answer.since().get(i) + " " + answer.reasons().get(i));
        }
        return lines;
    }

    private org.hoodkeeper.assessment.Dossier dossierPicked(Question question) {
        SetId set = question.set();
        ModelId model = modelOf.get(set);
        List<WorkerId> asked = new ArrayList<>(List.of(question.worker()));
        if (random.nextBoolean()) {
            // a crowd is loaded in another way
            Stream.generate(() -> new WorkerId(UUID.randomUUID())).limit(70).forEach(asked::add);
        }
        return dossiers.load(
                        site,
                        new Dossiers.Wanted(asked, List.of(task), List.of(set), Map.of()),
                        question.wear(),
                        question.knownAt())
                .dossier(question.worker(), task, set, labels.get(set), model, models.get(model));
    }

    private org.hoodkeeper.assessment.Dossier dossierOfAll(Question question) {
        SetId set = question.set();
        ModelId model = modelOf.get(set);
        Instant horizon = dossiers.load(
                        site,
                        new Dossiers.Wanted(List.of(question.worker()), List.of(task), List.of(set), Map.of()),
                        question.wear(),
                        question.knownAt())
                .horizon();
        RecordLoader.Cut cut = new RecordLoader.Cut(site.id(), question.wear().from(), horizon, question.knownAt());
        Records records = new Records();
        loader.load(
                records,
                new Reading.Statement(EVERYTHING, EVERYTHING, List.of("all")),
                cut,
                Map.of("all", List.of(site.id().value())));
        records.sort();
        SiteRules rules = new SiteRules(
                ZONE,
                "uk",
                shelf.knownAt(question.knownAt()),
                records.<SiteDecision>about(site.id().value(), org.hoodkeeper.facts.Kind.SITE_DECISION));
        return new Dossiers.Loaded(site, records, rules, cut)
                .dossier(question.worker(), task, set, labels.get(set), model, models.get(model));
    }

    private <T> T in(Supplier<T> work) {
        return SiteBinding.in(site.id(), () -> transaction.execute(status -> work.get()));
    }

    /** Of all components or of carbon monoxide alone, of which 6 ppm is too much by the 5 of EN 12021:2014. */
    private AirTest airTest(Outcome outcome) {
        boolean whole = random.nextBoolean();
        return new AirTest(
                outcome,
                random.nextBoolean() ? "EN 12021:2014" : "own edition",
                whole ? new BigDecimal("20.9") : null,
                new BigDecimal(random.nextInt(5) == 0 ? "6" : "1"),
                whole ? new BigDecimal("420") : null,
                whole ? new BigDecimal("0.1") : null,
                whole ? new BigDecimal("-14") : null,
                null,
                null,
                null,
                null);
    }
}
