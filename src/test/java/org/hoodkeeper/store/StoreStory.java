package org.hoodkeeper.store;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.evidence.Calibrations;
import org.hoodkeeper.evidence.Cleanings;
import org.hoodkeeper.evidence.Examinations;
import org.hoodkeeper.evidence.FlowChecks;
import org.hoodkeeper.evidence.Holds;
import org.hoodkeeper.evidence.Limits;
import org.hoodkeeper.evidence.PartChanges;
import org.hoodkeeper.evidence.Postings;
import org.hoodkeeper.evidence.Trainings;
import org.hoodkeeper.evidence.Wears;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.SilicaAir;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kit.Kit;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.people.People;
import org.hoodkeeper.programme.Programme;
import org.hoodkeeper.programme.Site;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.test.context.TestComponent;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * A store told step by step, each step at the time of the story's clock, in the site's local time. UK rule set, Europe/London;
 * H20 is a powered hood with a minimum of 170 L/min, H40 one with 180 L/min, H30 one like H20 whose hose is
 * a part of its own; the indicator FM-1 is right at 20 °C and 1013.25
 * hPa.
 */
@TestComponent
public class StoreStory {

    private final TestPeople sites;
    private final People people;
    private final Kit kit;
    private final Programme programme;
    private final Limits limits;
    private final Postings postings;
    private final Trainings trainings;
    private final Calibrations calibrations;
    private final Examinations examinations;
    private final FlowChecks flowChecks;
    private final Cleanings cleanings;
    private final PartChanges partChanges;
    private final Holds holds;
    private final Wears wears;
    private final Bench bench;
    private final Counter counter;
    private final TransactionTemplate transaction;
    private Site site;
    private Viewer viewer;

    StoreStory(
            TestPeople sites,
            People people,
            Kit kit,
            Programme programme,
            Limits limits,
            Postings postings,
            Trainings trainings,
            Calibrations calibrations,
            Examinations examinations,
            FlowChecks flowChecks,
            Cleanings cleanings,
            PartChanges partChanges,
            Holds holds,
            Wears wears,
            Bench bench,
            Counter counter,
            TransactionTemplate transaction) {
        this.sites = sites;
        this.people = people;
        this.kit = kit;
        this.programme = programme;
        this.limits = limits;
        this.postings = postings;
        this.trainings = trainings;
        this.calibrations = calibrations;
        this.examinations = examinations;
        this.flowChecks = flowChecks;
        this.cleanings = cleanings;
        this.partChanges = partChanges;
        this.holds = holds;
        this.wears = wears;
        this.bench = bench;
        this.counter = counter;
        this.transaction = transaction;
    }

    /** A new site with task T1 (silica, 0.6 mg/m³ at a limit of 0.1), both hoods and an indicator valid all year. */
    public StoreStory begin(String local) {
        site = sites.site();
        on(local);
        viewer = new Viewer(site.id(), new AccountId(site.id().value()), Set.of(Role.STOREKEEPER), null, null);
        Instant start = instant("2026-01-01T00:00");
        in(() -> limits.record(
                author(),
                "silica",
                new Limit(
                        new BigDecimal("0.1"),
                        "mg/m3",
                        null,
                        Set.of(FilterKind.PARTICLE),
                        false,
                        "EH40",
                        Mark.VERIFIED),
                start,
                null));
        TaskBasis basis = SilicaAir.of("0.6");
        in(() -> programme.addTask(author(), "T1", basis, start));
        decided("training.interval", "P12M");
        model("H20", "TH2", "170");
        model("H40", "TH3", "180");
        model(
                "H30",
                "TH2",
                "170",
                new ModelData.Slot("visor", Set.of("V-20"), null),
                new ModelData.Slot("hose", Set.of("HZ-7"), null));
        in(() -> kit.addInstrument(site.id(), "FM-1"));
        calibrated("FM-1", "2026-01-02T09:00", "2026-12-31");
        return this;
    }

    /** Friday 20 November 2026, 15:00: Kay and Lee have an H20 each, up to date, and Max has none. */
    public StoreStory fridayAtThree() {
        begin("2026-11-20T15:00")
                .worker("Kay", "H20")
                .worker("Lee", "H20")
                .worker("Max", "H20")
                .set("S-098", "H20", "2026-11-02T09:00")
                .set("S-131", "H20", "2026-11-02T09:00")
                .upToDate("S-098", "2026-11-20T13:00")
                .upToDate("S-131", "2026-11-20T13:00");
        issue("S-098", "Kay");
        issue("S-131", "Lee");
        return this;
    }

    public Site site() {
        return site;
    }

    public Viewer viewer() {
        return viewer;
    }

    public Author author() {
        return Author.at(viewer);
    }

    public People people() {
        return people;
    }

    public Kit kit() {
        return kit;
    }

    /** Moves the clock: what is told from now on is told then. */
    public StoreStory on(String local) {
        TestClock.set(instant(local));
        return this;
    }

    public Instant instant(String local) {
        return LocalDateTime.parse(local).atZone(site.zone()).toInstant();
    }

    public <T> T in(Supplier<T> work) {
        return SiteBinding.in(site.id(), () -> transaction.execute(status -> work.get()));
    }

    public void decided(String key, String value) {
        SiteDecision decision = new SiteDecision(value, "Safety officer", "told by the story");
        in(() -> programme.decide(author(), key, decision, instant("2026-01-01T00:00")));
    }

    private void model(String code, String ukClass, String minimum) {
        model(code, ukClass, minimum, new ModelData.Slot("visor", Set.of("V-20"), null));
    }

    /** A powered hood with the places given. */
    public StoreStory model(String code, String ukClass, String minimum, ModelData.Slot... slots) {
        ModelData data = new ModelData(
                code,
                InterfaceType.POWERED_HOOD,
                Map.of("uk", ukClass),
                false,
                Set.of("M", "L"),
                "R1",
                new BigDecimal(minimum),
                ModelData.FlowAt.LOCAL,
                480,
                Set.of(FilterKind.PARTICLE),
                List.of(new ModelData.Product("CL-50", new BigDecimal("50"), "ppm available chlorine", 120)),
                new BigDecimal("40"),
                List.of(slots));
        in(() -> kit.addModel(author(), code, data, instant("2026-01-01T00:00")));
        return this;
    }

    public StoreStory set(String label, String model, String receivedAt) {
        return set(label, model, false, receivedAt);
    }

    public StoreStory set(String label, String model, boolean emergency, String receivedAt) {
        SetData data =
                new SetData(in(() -> kit.model(site.id(), model)).id(), "M", "R1", null, emergency, "Main store", null);
        in(() -> kit.addSet(author(), label, data, instant(receivedAt)));
        return this;
    }

    /** Examined and its flow proven at 190 L/min. */
    public StoreStory upToDate(String label, String at) {
        examined(label, at);
        in(() -> flowChecks.record(author(), id(label), reading("190"), instant(at), null));
        return this;
    }

    public StoreStory examined(String label, String at) {
        Examination examination =
                new Examination(Outcome.PASS, new BigDecimal("190"), indicator(), "E. Examiner", null);
        in(() -> examinations.record(author(), id(label), examination, instant(at), null));
        return this;
    }

    public StoreStory flowChecked(String label, String reading, String at) {
        in(() -> flowChecks.record(author(), id(label), reading(reading), instant(at), null));
        return this;
    }

    private FlowChecks.Reading reading(String litres) {
        return new FlowChecks.Reading(new BigDecimal(litres), indicator(), null, null);
    }

    private InstrumentId indicator() {
        return in(() -> kit.instrument(site.id(), "FM-1")).id();
    }

    public StoreStory calibrated(String code, String at, String lastDay) {
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
        in(() -> calibrations.record(author(), kit.instrument(site.id(), code).id(), calibration, instant(at), null));
        return this;
    }

    public StoreStory wiped(String label, String at) {
        Cleaning wipe = new Cleaning(Cleaning.Method.WIPE, null, null, null, null, null);
        in(() -> cleanings.record(author(), id(label), wipe, instant(at), null));
        return this;
    }

    public StoreStory disinfected(String label, String at) {
        Cleaning full = new Cleaning(
                Cleaning.Method.WASH_AND_DISINFECT,
                "CL-50",
                new BigDecimal("50"),
                "ppm available chlorine",
                120,
                new BigDecimal("30"));
        in(() -> cleanings.record(author(), id(label), full, instant(at), null));
        return this;
    }

    /** A part fitted by a trained person. @param lot none where nobody read it */
    public RecordId fitted(String label, String slot, String part, @Nullable String lot, String at) {
        PartChange change = new PartChange(part, lot, null, null, true, "R. Repairer");
        return in(() -> partChanges.record(author(), id(label), slot, change, instant(at), null));
    }

    public RecordId held(String label, Hold.Why why, String at) {
        return in(() -> holds.place(author(), id(label), why, "told by the story", instant(at), null));
    }

    /** A worker who is posted to T1 from the start of the year and trained on the models given. */
    public StoreStory worker(String name, String... models) {
        in(() -> people.register(site.id(), name, name, null));
        in(() -> postings.post(
                author(),
                people.byNumber(site.id(), name).id(),
                programme.task(site.id(), "T1").id(),
                instant("2026-01-01T00:00"),
                null,
                null));
        for (String model : models) {
            in(() -> trainings.record(
                    author(),
                    people.byNumber(site.id(), name).id(),
                    kit.model(site.id(), model).id(),
                    new Training(Outcome.PASS, true, "1", false, "T. Trainer"),
                    instant("2026-01-05T09:00"),
                    null));
        }
        return this;
    }

    public StoreStory wore(String worker, String label, String from, String until) {
        in(() -> wears.whole(
                author(),
                people.byNumber(site.id(), worker).id(),
                id(label),
                programme.task(site.id(), "T1").id(),
                instant(from),
                instant(until),
                null));
        return this;
    }

    public RecordId issue(String label, String worker) {
        return in(() -> counter.issue(viewer, new Counter.Plan(id(label), worker, "T1", Duration.ofHours(4))));
    }

    public RecordId takeBack(String label, Boolean worn, String at) {
        return in(() -> counter.takeBack(author(), id(label), worn, null, instant(at)));
    }

    /** As it stands in the last second of that minute, with everything told in it. */
    public ShelfSet shelf(String label, String local) {
        return in(() -> bench.one(site.id(), label, instant(local).plusSeconds(59)));
    }

    public SetId id(String label) {
        return in(() -> kit.set(site.id(), label)).id();
    }
}
