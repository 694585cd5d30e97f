package org.hoodkeeper.scenarios;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Function;
import java.util.function.Supplier;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.evidence.Corrections;
import org.hoodkeeper.facts.BatteryTest;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Observation;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.Posting;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.facts.Variant;
import org.hoodkeeper.facts.WashStep;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SupplyId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.kit.Custodies;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.oversight.Consequences;
import org.hoodkeeper.oversight.Differences;
import org.hoodkeeper.oversight.Findings;
import org.hoodkeeper.people.People;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.reporting.Asked;
import org.hoodkeeper.reporting.Questions;
import org.hoodkeeper.reporting.StoredAnswers;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * A site told step by step, in the words of the trade, through the services and on the real database. Times are local to the
 * site unless they carry an offset. Each step is told at the time of the story's clock.
 */
final class Story {

    private final Door door;
    private final Site site;
    private final Author author;
    private final Map<String, Id> known = new HashMap<>();
    private final Map<String, String> modelOf = new HashMap<>();

    private Story(Door door, Site site) {
        this.door = door;
        this.site = site;
        this.author = new Author(site.id(), new AccountId(UUID.randomUUID()), Author.Via.FORM);
    }

    /** What is asked and done afterwards. */
    @Component
    record Lookback(
            Corrections corrections,
            Consequences consequences,
            Findings findings,
            Differences differences,
            StoredAnswers answers,
            History history) {}

    /** The services a story goes through. */
    @Component
    record Door(
            SiteRegister sites,
            People people,
            Kit kit,
            Custodies custodies,
            Programme programme,
            Ledger ledger,
            Questions questions,
            Lookback lookback,
            TransactionTemplate transaction) {

        private static final AtomicInteger SITES = new AtomicInteger();

        /** Ferrow Works: UK rule set, Europe/London, with its site decisions. */
        Story ferrow() {
            Story story = open("ferrow", "Ferrow Works", "Europe/London", "uk");
            story.decides("fit-test.interval", "P24M", "2020-01-01");
            story.decides("training.interval", "P12M", "2020-01-01");
            return story;
        }

        /** Pine Basin: US federal rule set, America/Denver. */
        Story pineBasin() {
            return open("pine", "Pine Basin", "America/Denver", "us-federal");
        }

        private Story open(String code, String name, String zone, String ruleSet) {
            TestClock.set(Instant.parse("2020-01-02T00:00:00Z"));
            Site site = sites.open(
                    code + "-" + SITES.incrementAndGet() + "-"
                            + ProcessHandle.current().pid(),
                    name,
                    ZoneId.of(zone),
                    ruleSet);
            return new Story(this, site);
        }
    }

    Site site() {
        return site;
    }

    Viewer officer() {
        return viewer(Role.OFFICER);
    }

    Viewer viewer(Role role) {
        return new Viewer(site.id(), author.account(), Set.of(role), null, null);
    }

    /** Moves the story's clock: what is told from now on is told then. */
    Story on(String local) {
        TestClock.set(instant(local));
        return this;
    }

    Instant instant(String text) {
        if (text.length() == 10) {
            return LocalDate.parse(text).atStartOfDay(site.zone()).toInstant();
        }
        return text.length() > 16 && (text.endsWith("Z") || text.lastIndexOf('+') > 10 || text.lastIndexOf('-') > 10)
                ? OffsetDateTime.parse(text).toInstant()
                : LocalDateTime.parse(text).atZone(site.zone()).toInstant();
    }

    // --- who and what

    Story worker(String name) {
        known.put(name, in(() -> door.people().register(site.id(), name, name, null)));
        return this;
    }

    Story task(String code, String substance, String exposure, InterfaceType... interfaces) {
        return task(code, substance, exposure, TaskBasis.Atmosphere.ORDINARY, interfaces);
    }

    Story task(
            String code,
            String substance,
            String exposure,
            TaskBasis.Atmosphere atmosphere,
            InterfaceType... interfaces) {
        TaskBasis basis = new TaskBasis(
                List.of(new TaskBasis.Exposure(substance, new BigDecimal(exposure), "mg/m3")),
                TaskBasis.Mixture.ADDITIVE,
                atmosphere,
                Set.of(interfaces),
                MedicalOutcome.WorkRate.MODERATE,
                "UTL95,70",
                null,
                null);
        known.put(code, in(() -> door.programme().addTask(author, code, basis, instant("2020-01-01"))));
        return this;
    }

    Story limit(String substance, String value, FilterKind... filters) {
        Limit limit = new Limit(
                new BigDecimal(value), "mg/m3", null, Set.of(filters), filters.length == 0, "EH40", Mark.VERIFIED);
        return tell(Draft.of(limit, site.id(), instant("2020-01-01")).scope(substance));
    }

    Story model(String code, InterfaceType type, String ukClass, @Nullable String minimum, boolean skinContact) {
        return model(code, type, Map.of("uk", ukClass), minimum, skinContact, type.hasBlower() ? 480 : null);
    }

    Story model(
            String code,
            InterfaceType type,
            Map<String, String> classes,
            @Nullable String minimum,
            boolean skinContact,
            @Nullable Integer batteryMinutes) {
        ModelData data = new ModelData(
                code,
                type,
                classes,
                skinContact,
                Set.of("S", "M", "L"),
                "R1",
                minimum == null ? null : new BigDecimal(minimum),
                ModelData.FlowAt.LOCAL,
                batteryMinutes,
                Set.of(FilterKind.PARTICLE),
                List.of(new ModelData.Product("alcohol-70", new BigDecimal("70"), "% v/v", 60)),
                new BigDecimal("40"),
                List.of(new ModelData.Slot("visor", Set.of("V-" + code), null)));
        known.put(code, in(() -> door.kit().addModel(author, code, data, instant("2020-01-01"))));
        return this;
    }

    /**
     * Block splitting, T1, at 14.2 times the limit for silica; H20 (TH2) protects 20 times, H40 (TH3) 40 times, and M20 is a half
     * mask.
     */
    Story blockSplitting() {
        return limit("silica", "0.1", FilterKind.PARTICLE)
                .task("T1", "silica", "1.42")
                .model("H20", InterfaceType.POWERED_HOOD, "TH2", "170", false)
                .model("H40", InterfaceType.POWERED_HOOD, "TH3", "180", false)
                .model("M20", InterfaceType.HALF_MASK, "half P3", null, false);
    }

    Story set(String label, String model, String size) {
        return set(label, model, size, null);
    }

    Story set(String label, String model, String size, @Nullable String supply) {
        SetData data = new SetData(
                modelId(model), size, "R1", supply == null ? null : (SupplyId) known.get(supply), false, "main", null);
        modelOf.put(label, model);
        known.put(label, in(() -> door.kit().addSet(author, label, data, instant("2020-01-01T12:00"))));
        return this;
    }

    private org.hoodkeeper.kernel.ModelId modelId(String code) {
        return (org.hoodkeeper.kernel.ModelId) known.get(code);
    }

    /** A flow indicator that is right at 20 °C and 1013.25 hPa and states no uncertainty. */
    Story indicator(String code, String calibratedOn, String lastDay) {
        known.put(code, in(() -> door.kit().addInstrument(site.id(), code)));
        Calibration calibration = new Calibration(
                Outcome.PASS,
                true,
                BigDecimal.ONE,
                null,
                new BigDecimal("20"),
                new BigDecimal("1013.25"),
                LocalDate.parse(lastDay),
                null,
                null);
        return tell(Draft.of(calibration, known.get(code), instant(calibratedOn)));
    }

    Story supply(String code) {
        known.put(code, in(() -> door.kit().addSupply(site.id(), code)));
        return this;
    }

    // --- what happens

    Story decides(String key, String value, String from) {
        in(() -> door.programme()
                .decide(author, key, new SiteDecision(value, "Safety officer", "story"), instant(from)));
        return this;
    }

    Story posted(String worker, String task) {
        return tell(Draft.of(new Posting(Posting.Change.POSTED), known.get(worker), instant("2020-01-01"))
                .item(known.get(task)));
    }

    Story trained(String worker, String model, String at) {
        return tell(Draft.of(new Training(Outcome.PASS, true, "1", false, "T. Trainer"), known.get(worker), instant(at))
                .scope(model));
    }

    Story fitTested(String worker, String model, String size, String at, String... factors) {
        FitTest test = new FitTest(
                FitTest.Method.QUANTITATIVE,
                "ambient particle count",
                List.of(factors).stream().map(BigDecimal::new).toList(),
                Outcome.PASS,
                false,
                "F. Tester");
        return tell(Draft.of(test, known.get(worker), instant(at)).scope(new Variant(model, size, "R1").toString()));
    }

    Story clearAtSeal(String worker, String at) {
        return tell(Draft.of(new Observation(Observation.Seen.CLEAR_AT_SEAL, null), known.get(worker), instant(at)));
    }

    Story bearded(String worker, String at) {
        return tell(Draft.of(new Observation(Observation.Seen.HAIR_AT_SEAL, null), known.get(worker), instant(at)));
    }

    Story issued(String label, String worker, String at) {
        in(() -> door.custodies()
                .claim(
                        author,
                        (SetId) known.get(label),
                        new Custody(Custody.Claim.ISSUED, null, null),
                        (WorkerId) known.get(worker),
                        instant(at)));
        return this;
    }

    Story claims(String label, Custody.Claim claim, @Nullable Boolean worn, String at) {
        in(() -> door.custodies()
                .claim(author, (SetId) known.get(label), new Custody(claim, worn, null), null, instant(at)));
        return this;
    }

    Story flowChecked(String label, String reading, String indicator, String at) {
        FlowCheck check = new FlowCheck(
                new BigDecimal(reading),
                (InstrumentId) known.get(indicator),
                null,
                null,
                null,
                null,
                null,
                Outcome.PASS);
        return tell(Draft.of(check, known.get(label), instant(at)));
    }

    Story examined(String label, @Nullable String reading, String indicator, String at) {
        Examination examination = new Examination(
                Outcome.PASS,
                reading == null ? null : new BigDecimal(reading),
                reading == null ? null : (InstrumentId) known.get(indicator),
                "E. Examiner",
                null);
        return tell(Draft.of(examination, known.get(label), instant(at)));
    }

    Story disinfected(String label, String at) {
        Cleaning cleaning = new Cleaning(
                Cleaning.Method.WASH_AND_DISINFECT,
                "alcohol-70",
                new BigDecimal("70"),
                "% v/v",
                120,
                new BigDecimal("30"));
        return tell(Draft.of(cleaning, known.get(label), instant(at)));
    }

    /** Taken apart for a wash. @param batch any text that names the basket */
    Story stripped(String batch, String at, String... labels) {
        WashStep step = new WashStep(WashStep.Step.STRIPPED, null, null, null, null);
        for (String label : labels) {
            tell(Draft.of(step, site.id(), instant(at)).item(known.get(label)).scope(batch));
        }
        return this;
    }

    Story washStep(String batch, WashStep.Step step, String at) {
        return tell(Draft.of(new WashStep(step, null, null, null, null), site.id(), instant(at))
                .scope(batch));
    }

    /** From full charge to the alarm. */
    Story batteryRan(String label, int minutes, boolean loaded, String at) {
        return tell(Draft.of(new BatteryTest(minutes, loaded, null, "B. Tester"), known.get(label), instant(at)));
    }

    Story batteryRan(String label, String serial, int minutes, String at) {
        return tell(Draft.of(new BatteryTest(minutes, true, serial, "B. Tester"), known.get(label), instant(at)));
    }

    Story wiped(String label, String at) {
        return tell(Draft.of(
                new Cleaning(Cleaning.Method.WIPE, null, null, null, null, null), known.get(label), instant(at)));
    }

    /** Every item of the list passed, the hood sits right or the seal holds, and the float stands at 190. */
    Story checked(String label, String worker, String at) {
        Map<PreUseCheck.Item, Outcome> items = new EnumMap<>(PreUseCheck.Item.class);
        for (PreUseCheck.Item item : PreUseCheck.Item.values()) {
            items.put(item, Outcome.PASS);
        }
        PreUseCheck check = new PreUseCheck(items, new BigDecimal("190"), null, Outcome.PASS, 100, null);
        return tell(Draft.of(check, known.get(label), instant(at)).item(known.get(worker)));
    }

    Story wore(String worker, String label, String task, String from, String until) {
        return tell(Draft.of(new Wear((TaskId) known.get(task), Wear.Step.WHOLE), known.get(worker), instant(from))
                .item(known.get(label))
                .until(instant(until)));
    }

    /** A sample of T1 in mg/m³. */
    Story sampled(String substance, String value, ExposureResult.Period period, String at) {
        return tell(Draft.of(
                        new ExposureResult(
                                new BigDecimal(value), "mg/m3", false, null, null, null, null, null, period, List.of()),
                        known.get("T1"),
                        instant(at))
                .scope(substance));
    }

    Story medical(String worker, MedicalOutcome outcome, String at) {
        return tell(Draft.of(outcome, known.get(worker), instant(at)));
    }

    Story tell(Fact fact, String subject, String at) {
        return tell(Draft.of(fact, known.get(subject), instant(at)));
    }

    Story tell(Draft draft) {
        in(() -> door.ledger().append(author, draft));
        return this;
    }

    RecordId record(Draft draft) {
        return in(() -> door.ledger().append(author, draft));
    }

    /** With the site bound, outside of any transaction: for what opens its own. */
    <T> T here(Function<Door, T> work) {
        return SiteBinding.in(site.id(), () -> work.apply(door));
    }

    Id id(String name) {
        return known.get(name);
    }

    // --- the question

    Asking may(String worker, String task) {
        return new Asking(worker, task);
    }

    final class Asking {
        private final String worker;
        private final String task;
        private @Nullable String set;
        private @Nullable String model;
        private @Nullable String size;
        private @Nullable String knownAt;
        private List<Instant> swaps = List.of();
        private @Nullable Viewer reader;

        private Asking(String worker, String task) {
            this.worker = worker;
            this.task = task;
        }

        Asking with(String label) {
            set = label;
            return this;
        }

        Asking withModel(String code, String ofSize) {
            model = code;
            size = ofSize;
            return this;
        }

        Asking asKnownAt(String moment) {
            knownAt = moment;
            return this;
        }

        Asking swappingAt(String moment) {
            swaps = List.of(instant(moment));
            return this;
        }

        Asking seenBy(Viewer viewer) {
            reader = viewer;
            return this;
        }

        /** Asks as the officer unless somebody else reads. */
        Answer from(String from, String until) {
            return in(() -> door.questions()
                    .ask(
                            reader == null ? officer() : reader,
                            new Asked(
                                    worker,
                                    task,
                                    set,
                                    model,
                                    size,
                                    instant(from),
                                    instant(until),
                                    knownAt == null ? null : instant(knownAt),
                                    swaps)));
        }
    }

    private <T> T in(Supplier<T> work) {
        return SiteBinding.in(site.id(), () -> door.transaction().execute(status -> work.get()));
    }
}
