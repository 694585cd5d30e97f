package org.hoodkeeper.bench;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.BitSet;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Observation;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.Posting;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.SymptomReport;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.facts.Variant;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;

/** One worker with a set: what happens to them, week by week. About half of the pairs lack something in the end. */
final class Pair {

    /** What is wrong with a pair at the end; most often nothing. */
    enum Lapse {
        NONE(50),
        CLEAN(9),
        EXAMINATION(7),
        TRAINING(8),
        MEDICAL(5),
        FIT(4),
        HELD(3),
        DEFECT(2),
        SUSPENDED(2),
        SYMPTOM(1),
        HAIR(2),
        NO_SET(3),
        NOT_POSTED(2),
        FLOW(2);

        private final int weight;

        Lapse(int weight) {
            this.weight = weight;
        }

        private static Lapse drawn(SplittableRandom random) {
            int ticket = random.nextInt(100);
            for (Lapse lapse : values()) {
                ticket -= lapse.weight;
                if (ticket < 0) {
                    return lapse;
                }
            }
            return NONE;
        }
    }

    private static final String[] MODELS = {"H20", "H40", "H40", "H20", "PF", "M20", "F40", "A40", "H40", "H20"};
    private static final Map<PreUseCheck.Item, Outcome> PASSED = passed();
    private static final int CAMPAIGN = 6;

    final int index;
    final WorkerId worker;
    final SetId set;
    final String model;
    final String size;
    final TaskId task;
    final Lapse lapse;
    private final ModelData data;
    private final Ground ground;
    private final InstrumentId indicator;
    private final BitSet active;
    private final SplittableRandom random;

    Pair(int index, WorkerId worker, SetId set, Ground ground, Size size) {
        this.index = index;
        this.worker = worker;
        this.set = set;
        this.ground = ground;
        this.random = new SplittableRandom(size.seed() * 1_000_003 + index);
        this.model = MODELS[random.nextInt(MODELS.length)];
        this.size = List.of("S", "M", "L").get(random.nextInt(3));
        this.data = ground.data.get(model);
        this.lapse = index == 0 ? Lapse.NONE : Lapse.drawn(random);
        // a class of 20 is enough for half of the tasks only
        boolean strong = !Set.of("H20", "M20").contains(model);
        int at = random.nextInt(Ground.TASKS);
        this.task = ground.tasks.get(strong ? at : List.of(0, 2, 3, 5, 7, 8, 10, 6, 1, 11, 0, 2).get(at));
        this.indicator = ground.instruments.get(index % ground.instruments.size());
        this.active = campaigns(size.activeWeeks());
    }

    /** From 0. */
    int taskNumber() {
        return ground.tasks.indexOf(task);
    }

    /** The last weeks always, and campaigns of six weeks scattered over the years before. */
    private BitSet campaigns(int weeks) {
        BitSet active = new BitSet(Size.WEEKS);
        active.set(Size.WEEKS - Math.min(weeks, CAMPAIGN), Size.WEEKS);
        int blocks = Size.WEEKS / CAMPAIGN;
        for (int tries = 0; active.cardinality() < weeks && tries < 20 * blocks; tries++) {
            int from = 1 + random.nextInt(blocks) * CAMPAIGN;
            active.set(from, Math.min(Size.WEEKS, from + Math.min(CAMPAIGN, weeks - active.cardinality())));
        }
        for (int week = 1; active.cardinality() < weeks && week < Size.WEEKS; week++) {
            active.set(week);
        }
        return active;
    }

    void week(int week, Instant start, Week into) {
        if (week == 0) {
            begin(start, into);
        }
        int left = Size.WEEKS - week;
        person(week, left, start, into);
        if (active.get(week)) {
            wears(left, start, into);
            upkeep(week, left, start, into);
        } else if ((week + index) % 12 == 0) {
            examine(start.plus(minutes(2, 9)), into);
        }
        if (left == 1) {
            end(start, into);
        }
    }

    private void begin(Instant start, Week into) {
        SetData received = new SetData(
                ground.models.get(model),
                size,
                "R1",
                data.type().isAirFed() ? ground.supplies.get(index % ground.supplies.size()) : null,
                false,
                index % 20 == 0 ? "spare" : "main",
                model + "-" + (7_000 + index));
        told(into, start, Draft.of(received, set, start));
        posted(into, start, task);
        if (index % 4 == 1) {
            posted(into, start, ground.tasks.get((index / 4) % Ground.TASKS));
        }
        train(start.plus(minutes(0, 9)), into);
        outcome(start.plus(minutes(0, 10)), into);
        fit(start.plus(minutes(0, 11)), into);
        if (lapse != Lapse.NO_SET) {
            told(
                    into,
                    start.plus(minutes(0, 14)),
                    Draft.of(new Custody(Custody.Claim.ISSUED, null, null), set, start.plus(minutes(0, 14)))
                            .item(worker));
        }
    }

    private void posted(Week into, Instant start, TaskId where) {
        told(into, start, Draft.of(new Posting(Posting.Change.POSTED), worker, start)
                .item(where));
    }

    private void person(int week, int left, Instant start, Week into) {
        if ((week + index) % 50 == 0 && !(lapse == Lapse.TRAINING && left < 60)) {
            train(start.plus(minutes(1, 9)), into);
        }
        if ((week + index) % 100 == 0 && !(lapse == Lapse.MEDICAL && left < 110)) {
            outcome(start.plus(minutes(1, 13)), into);
        }
        if ((week + index) % 100 == 50 && !(lapse == Lapse.FIT && left < 110)) {
            fit(start.plus(minutes(2, 13)), into);
        }
        if ((week + index) % 90 == 0) {
            Instant at = start.plus(minutes(3, 10));
            told(into, at, Draft.of(new Observation(Observation.Seen.CLEAR_AT_SEAL, null), worker, at));
            Instant then = start.plus(minutes(3, 15));
            told(
                    into,
                    then,
                    Draft.of(new PartChange("V-" + model, "L-" + week, null, null, true, "T. Garside"), set, then)
                            .scope("visor"));
            flow(then.plusSeconds(900), into);
        }
    }

    private void wears(int left, Instant start, Week into) {
        for (int day : new int[] {0, 2, 3}) {
            Instant from = start.plus(minutes(day, 6));
            PreUseCheck check = new PreUseCheck(
                    PASSED, data.minimumFlow() == null ? null : BigDecimal.valueOf(170 + random.nextInt(30)), null,
                    Outcome.PASS, 100, null);
            told(into, from, Draft.of(check, set, from).item(worker));
            Instant until = from.plus(Duration.ofMinutes(240 + random.nextInt(200)));
            into.byFile(
                    day,
                    Draft.of(new Wear(task, Wear.Step.WHOLE), worker, from.plusSeconds(300))
                            .item(set)
                            .until(until));
        }
        if (!(lapse == Lapse.CLEAN && left < 4)) {
            Cleaning cleaning = new Cleaning(
                    Cleaning.Method.WASH_AND_DISINFECT,
                    "OX-4",
                    BigDecimal.valueOf(1000),
                    "ppm available chlorine",
                    150,
                    BigDecimal.valueOf(38));
            into.byFile(4, Draft.of(cleaning, set, start.plus(minutes(4, 12))));
            if (data.type().hasFlow()) {
                // what was washed is measured before it goes out again
                into.byFile(4, Draft.of(flowOf("196", Outcome.PASS), set, start.plus(minutes(4, 13))));
            }
        }
    }

    private void upkeep(int week, int left, Instant start, Week into) {
        if ((week + index) % 4 == 0 && !(lapse == Lapse.EXAMINATION && left < 8)) {
            examine(start.plus(minutes(4, 14)), into);
            flow(start.plus(minutes(4, 15)), into);
        }
    }

    private void end(Instant start, Week into) {
        Instant at = start.plus(minutes(5, 10));
        switch (lapse) {
            case HELD -> told(into, at, Draft.of(new Hold(Hold.Step.PLACED, Hold.Why.QUARANTINE, "Waits"), set, at));
            case DEFECT ->
                told(into, at, Draft.of(new Defect(Defect.Step.FOUND, "visor", "Crack at the lock"), set, at));
            case SUSPENDED ->
                told(into, at, Draft.of(new Hold(Hold.Step.PLACED, Hold.Why.SUSPENDED, "Visor up"), worker, at));
            case SYMPTOM ->
                told(into, at, Draft.of(new SymptomReport(SymptomReport.Step.REPORTED, "Tight chest"), worker, at));
            case HAIR ->
                told(into, at, Draft.of(new Observation(Observation.Seen.HAIR_AT_SEAL, "Full beard"), worker, at));
            case NOT_POSTED ->
                told(into, at, Draft.of(new Posting(Posting.Change.ENDED), worker, at)
                        .item(task));
            case FLOW -> {
                if (data.type().hasFlow()) {
                    told(into, at, Draft.of(flowOf("96", Outcome.FAIL), set, at));
                }
            }
            default -> {
                // ended earlier, or nothing is wrong
            }
        }
    }

    private void train(Instant at, Week into) {
        told(into, at, Draft.of(new Training(Outcome.PASS, true, "3", false, "M. Heald"), worker, at)
                .scope(model));
    }

    private void outcome(Instant at, Week into) {
        if (data.type().isTightFitting()) {
            LocalDate review = LocalDate.ofInstant(at, ZoneOffset.UTC).plusDays(720);
            MedicalOutcome.Result result =
                    index % 9 == 0 ? MedicalOutcome.Result.FIT_WITH_LIMITS : MedicalOutcome.Result.FIT;
            told(
                    into,
                    at,
                    Draft.of(
                            new MedicalOutcome(
                                    result,
                                    EnumSet.noneOf(org.hoodkeeper.facts.InterfaceType.class),
                                    null,
                                    result == MedicalOutcome.Result.FIT ? null : BigDecimal.valueOf(28),
                                    null,
                                    false,
                                    review,
                                    "Vale Occupational Health"),
                            worker,
                            at));
        }
    }

    private void fit(Instant at, Week into) {
        if (data.type().isTightFitting()) {
            List<BigDecimal> factors = random.ints(7, 2_300, 3_200)
                    .mapToObj(BigDecimal::valueOf)
                    .toList();
            told(
                    into,
                    at,
                    Draft.of(
                                    new FitTest(
                                            FitTest.Method.QUANTITATIVE,
                                            "ambient particle count",
                                            factors,
                                            Outcome.PASS,
                                            false,
                                            "J. Ottley"),
                                    worker,
                                    at)
                            .scope(new Variant(model, size, "R1").toString()));
        }
    }

    private void examine(Instant at, Week into) {
        BigDecimal reading = data.minimumFlow() == null ? null : data.minimumFlow().add(BigDecimal.valueOf(14));
        told(
                into,
                at,
                Draft.of(
                        new Examination(Outcome.PASS, reading, reading == null ? null : indicator, "T. Garside", null),
                        set,
                        at));
    }

    private void flow(Instant at, Week into) {
        if (data.minimumFlow() != null) {
            int over = 8 + random.nextInt(14);
            told(
                    into,
                    at,
                    Draft.of(
                            flowOf(data.minimumFlow().add(BigDecimal.valueOf(over)).toString(), Outcome.PASS),
                            set,
                            at));
        }
    }

    private FlowCheck flowOf(String reading, Outcome outcome) {
        BigDecimal shown = new BigDecimal(reading);
        return new FlowCheck(
                shown,
                indicator,
                BigDecimal.valueOf(20),
                new BigDecimal("1013.2"),
                shown,
                data.minimumFlow(),
                BigDecimal.valueOf(2),
                outcome);
    }

    /** More wears and checks of one subject than any real one has. */
    void heavy(int many, Instant start, Week into) {
        for (int i = 0; i < many / 2; i++) {
            Instant at = start.plus(minutes(i % 6, 16)).plusSeconds(60L * (i / 6));
            into.byFile(
                    i % 6,
                    Draft.of(new Wear(task, Wear.Step.WHOLE), worker, at).item(set).until(at.plusSeconds(50)));
            if (data.minimumFlow() != null) {
                into.byFile(i % 6, Draft.of(flowOf("199", Outcome.PASS), set, at.plusSeconds(55)));
            }
        }
    }

    private void told(Week into, Instant at, Draft draft) {
        into.told(at.plusSeconds(30 + random.nextInt(600)), Author.Via.FORM, draft);
    }

    private Duration minutes(int day, int hour) {
        return Duration.ofMinutes(day * 1440L + hour * 60L + random.nextInt(60));
    }

    private static Map<PreUseCheck.Item, Outcome> passed() {
        Map<PreUseCheck.Item, Outcome> items = new EnumMap<>(PreUseCheck.Item.class);
        for (PreUseCheck.Item item : PreUseCheck.Item.values()) {
            items.put(item, Outcome.PASS);
        }
        return items;
    }

}
