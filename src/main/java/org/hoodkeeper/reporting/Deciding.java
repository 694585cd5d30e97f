package org.hoodkeeper.reporting;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.facts.Kind;

/** Which records can decide: for each kind of requirement what {@link org.hoodkeeper.rules.RequirementKind#reading()} says. */
final class Deciding {

    /**
     * The names that {@link org.hoodkeeper.facts.PartClass#FILTER} goes by, as the database tells them: a wider pattern would end
     * the wears that are read at a part that is no filter.
     */
    private static final String FILTER = "^\\s*filter\\s*$";

    private Deciding() {}

    private static final Reading WORKERS = Reading.about("workers")
            .latestOfEach(Kind.TRAINING, "r.scope", "r.body ->> 'outcome'", "r.body ->> 'demonstrated'")
            .latest(Kind.MEDICAL_OUTCOME, 1)
            .open(Kind.SYMPTOM_REPORT, "REPORTED", "REVIEWED")
            .latestOfEach(
                    Kind.FIT_TEST,
                    "r.scope",
                    "r.body ->> 'outcome'",
                    "r.body ->> 'method'",
                    "r.body ->> 'negativeMode'",
                    "r.body ->> 'exercises'")
            .latestOfEachWay(Kind.OBSERVATION)
            .where(
                    Kind.POSTING,
                    "r.true_from <= :start and r.body ->> 'change' = 'POSTED' and (r.true_until is null or r.true_until > :start)",
                    100)
            .where(Kind.POSTING, "r.true_from <= :start and r.body ->> 'change' = 'ENDED'", 100)
            .open(Kind.HOLD, "PLACED", "RELEASED")
            .where(Kind.WEAR, "r.true_from < :start and r.true_from > :start - interval '3 days'", 200)
            .where(Kind.BOOKING, "r.true_from >= :known", 20)
            .later(
                    Kind.TRAINING,
                    Kind.MEDICAL_OUTCOME,
                    Kind.SYMPTOM_REPORT,
                    Kind.FIT_TEST,
                    Kind.OBSERVATION,
                    Kind.POSTING,
                    Kind.HOLD);

    private static final Reading TASKS = Reading.about("tasks")
            .latest(Kind.TASK_BASIS, 1)
            .open(Kind.TASK_TRIGGER, "OPENED", "CLOSED")
            .open(Kind.HOLD, "PLACED", "RELEASED")
            .latest(Kind.MEASURED_CONDITION, 1)
            .latest(Kind.EXPOSURE_RESULT, 1000)
            .later(Kind.TASK_BASIS, Kind.TASK_TRIGGER, Kind.HOLD, Kind.MEASURED_CONDITION, Kind.EXPOSURE_RESULT);

    private static final Reading SITE = Reading.about("sites")
            .latestOfEach(Kind.LIMIT, "r.scope")
            .later(Kind.LIMIT)
            .where(Kind.SITE_DECISION, "true", 2000);

    private static final List<Reading> SETS = List.of(
            Reading.about("sets")
                    .latest(Kind.SET, 1)
                    .latest(Kind.CUSTODY, 40)
                    .latest(Kind.CUSTODY, "claim", "FOUND")
                    .latest(Kind.CUSTODY, "claim", "MISSING")
                    .latestOfAnother(Kind.CUSTODY, "item", "claim", "ISSUED")
                    .latest(Kind.FLOW_CHECK, 10)
                    .latest(Kind.EXAMINATION, 10)
                    .latest(Kind.EXAMINATION, "outcome", "PASS")
                    .latestOfEachWay(Kind.CLEANING)
                    .latestOfEach(Kind.PART_CHANGE, "r.scope")
                    .latest(Kind.DEFECT, 1)
                    .latest(Kind.DEFECT, "step", "MENDED")
                    .open(Kind.DEFECT, "FOUND", "MENDED")
                    .latest(Kind.HOLD, 1)
                    .latest(Kind.HOLD, "why", "UNDER_REPAIR")
                    .latest(Kind.HOLD, "why", "DEFECT")
                    .open(Kind.HOLD, "PLACED", "RELEASED")
                    .latestOfEach(Kind.BATTERY_TEST, "r.body ->> 'serial'")
                    .latestOfEachWearer(Kind.PRE_USE_CHECK, "item")
                    .oldest(Kind.PRE_USE_CHECK)
                    .oldestSinceFullClean(Kind.PRE_USE_CHECK)
                    .later(
                            Kind.SET,
                            Kind.CUSTODY,
                            Kind.FLOW_CHECK,
                            Kind.EXAMINATION,
                            Kind.CLEANING,
                            Kind.PART_CHANGE,
                            Kind.DEFECT,
                            Kind.BATTERY_TEST,
                            Kind.PRE_USE_CHECK)
                    .laterAndAhead(Kind.HOLD),
            Reading.naming("sets")
                    .latest(Kind.WEAR, 4)
                    .batches(Kind.WASH_STEP)
                    .latestOfEachWearer(Kind.WEAR, "subject")
                    .oldest(Kind.WEAR)
                    .oldestSinceFullClean(Kind.WEAR)
                    .whereDecided(
                            "filter.longest-use/",
                            Kind.WEAR,
                            "r.true_from <= :start and r.true_from >= "
                                    + "coalesce((select max(p.true_from) from ledger_record p where p.site_id = :site"
                                    + " and p.subject = s.id and p.kind = " + Kind.PART_CHANGE.number()
                                    + " and p.scope ~* '" + FILTER
                                    + "' and p.true_from <= :start and (p.recorded_at <= :known) is true"
                                    + " and not p.withdrawn and not exists (select 1 from ledger_record pc"
                                    + " where pc.site_id = p.site_id and pc.corrects = p.id and pc.recorded_at <= :known))"
                                    + " - interval '1 day', :start)",
                            5000)
                    .later(Kind.WEAR));

    /** What the records of sets name: their model and supply, and the instruments that measured them. */
    private static final List<Reading> NAMED = List.of(
            Reading.about("models").latest(Kind.MODEL, 1).later(Kind.MODEL),
            Reading.about("instruments").where(Kind.CALIBRATION, "true", 200).where(Kind.HOLD, "true", 200),
            Reading.about("supplies")
                    .latest(Kind.AIR_TEST, 40)
                    .latest(Kind.SUPPLY_MOVE, 1)
                    .latest(Kind.PURIFIER_TAG, 1)
                    .open(Kind.HOLD, "PLACED", "RELEASED")
                    .later(Kind.AIR_TEST, Kind.SUPPLY_MOVE, Kind.PURIFIER_TAG, Kind.HOLD));

    private static final String NAMES = "a.models || " + named("model", Kind.SET) + " as models, "
            + named("instrument", Kind.FLOW_CHECK) + " || " + named("indicator", Kind.EXAMINATION, Kind.PRE_USE_CHECK)
            + " as instruments, " + named("supply", Kind.SET) + " as supplies";

    private static final String ALL_NAMES = "array(select m.id from kit_model m where m.site_id = a.site) as models,"
            + " array(select i.id from kit_instrument i where i.site_id = a.site) as instruments,"
            + " array(select s.id from kit_supply s where s.site_id = a.site) as supplies";

    private static String named(String field, Kind... kinds) {
        String numbers = Stream.of(kinds).map(kind -> "" + kind.number()).collect(Collectors.joining(", "));
        return "array(select distinct (p.body::json ->> '" + field + "')::uuid from picked p where p.kind in ("
                + numbers + ") and p.body::json ->> '" + field + "' is not null)";
    }

    private static List<Reading> part() {
        List<Reading> part = new ArrayList<>(List.of(WORKERS));
        part.addAll(SETS);
        return part;
    }

    private static List<Reading> first() {
        List<Reading> first = new ArrayList<>(List.of(WORKERS));
        first.addAll(more());
        first.add(SITE);
        return first;
    }

    private static List<Reading> more() {
        List<Reading> more = new ArrayList<>(SETS);
        more.add(TASKS);
        return more;
    }

    /** About people and sets alone, where what a whole site has in common was read by {@link #SHARED}. */
    static final Reading.Statement PART = Reading.statement(part());

    /** About tasks, the site, and all that the records of its sets may name. */
    static final Reading.Statement SHARED =
            Reading.statement(List.of(TASKS, SITE), ALL_NAMES, NAMED, new LinkedHashSet<>(List.of("tasks", "sites")));

    /** About further sets and tasks with what their records name, where the person and the site are known already. */
    static final Reading.Statement MORE =
            Reading.statement(more(), NAMES, NAMED, new LinkedHashSet<>(List.of("sets", "tasks", "models")));

    /** All of it in one, for a few subjects: the records in between are kept and read twice. */
    static final Reading.Statement AT_ONCE = Reading.statement(
            first(), NAMES, NAMED, new LinkedHashSet<>(List.of("workers", "sets", "tasks", "sites", "models")));
}
