package org.hoodkeeper.exchange;

import static org.hoodkeeper.exchange.Column.Place.CLAIM;
import static org.hoodkeeper.exchange.Column.Place.EMPLOYER;
import static org.hoodkeeper.exchange.Column.Place.ENDS;
import static org.hoodkeeper.exchange.Column.Place.FROM;
import static org.hoodkeeper.exchange.Column.Place.ITEM;
import static org.hoodkeeper.exchange.Column.Place.PERSON;
import static org.hoodkeeper.exchange.Column.Place.REGISTER;
import static org.hoodkeeper.exchange.Column.Place.SCOPE;
import static org.hoodkeeper.exchange.Column.Place.SOURCE;
import static org.hoodkeeper.exchange.Column.Place.SUBJECT;
import static org.hoodkeeper.exchange.Column.Place.UNTIL;
import static org.hoodkeeper.exchange.Column.optional;
import static org.hoodkeeper.exchange.Column.required;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.Employment;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.LegalHold;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.facts.MeasuredCondition;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Observation;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.Posting;
import org.hoodkeeper.facts.StockUse;
import org.hoodkeeper.facts.SymptomReport;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.TaskTrigger;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.Role;
import org.jspecify.annotations.Nullable;

/**
 * The files of a site, in the order in which an empty site takes them: what a file names stands in a file before it. Parser,
 * row report, header of the export and the pages that explain the columns all come from here.
 */
public enum FileKind {
    WORKERS(
            null,
            Names.Sort.WORKER,
            For.PEOPLE,
            required("number", Form.CODE, REGISTER),
            required("name", Form.text(120), PERSON),
            optional("employer", Form.text(120), EMPLOYER)),
    TASKS(null, Names.Sort.TASK, For.OFFICE, required("code", Form.CODE, REGISTER)),
    INSTRUMENTS(null, Names.Sort.INSTRUMENT, For.STORE, required("code", Form.CODE, REGISTER)),
    SUPPLIES(null, Names.Sort.SUPPLY, For.STORE, required("code", Form.CODE, REGISTER)),
    MODELS(
            Kind.MODEL,
            Names.Sort.MODEL,
            For.STORE,
            required("code", Form.CODE, REGISTER),
            required("from", Form.MOMENT, FROM),
            required("name", Form.text(120), "name"),
            required("type", Form.choice(InterfaceType.values()), "type"),
            optional("classes", Form.CLASSES, "classes"),
            required("skin_contact", Form.YES_NO, "skinContact"),
            optional("sizes", Form.TEXTS, "sizes"),
            required("seal_revision", Form.CODE, "sealRevision"),
            optional("minimum_flow", Form.DECIMAL, "minimumFlow"),
            required("flow_at", Form.choice(ModelData.FlowAt.values()), "flowAt"),
            optional("battery_minutes", Form.WHOLE, "batteryMinutes"),
            optional("filters", Form.several(FilterKind.values()), "filters"),
            optional("products", Form.PRODUCTS, "products"),
            optional("max_wash_celsius", Form.DECIMAL, "maxWashCelsius"),
            optional("slots", Form.SLOTS, "slots")),
    SETS(
            Kind.SET,
            Names.Sort.SET,
            For.STORE,
            required("label", Form.CODE, REGISTER),
            required("from", Form.MOMENT, FROM),
            required("model", Form.named(Names.Sort.MODEL), "model"),
            required("size", Form.text(20), "size"),
            required("seal_revision", Form.CODE, "sealRevision"),
            optional("supply", Form.named(Names.Sort.SUPPLY), "supply"),
            required("emergency", Form.YES_NO, "emergency"),
            optional("store", Form.text(60), "store"),
            optional("serial", Form.text(60), "serial")),
    LIMITS(
            Kind.LIMIT,
            null,
            For.HYGIENE,
            required("substance", Form.text(80), SCOPE),
            required("from", Form.MOMENT, FROM),
            required("value", Form.DECIMAL, "value"),
            required("unit", Form.text(20), "unit"),
            optional("idlh", Form.DECIMAL, "idlh"),
            optional("filters", Form.several(FilterKind.values()), "filters"),
            required("air_fed_only", Form.YES_NO, "airFedOnly"),
            required("source", Form.text(200), "source"),
            required("mark", Form.choice(Mark.values()), "mark"),
            optional("short_term", Form.DECIMAL, "shortTerm"),
            optional("ceiling", Form.DECIMAL, "ceiling"),
            optional("filter_limit", Form.DECIMAL, "filterLimit")),
    DECISIONS(
            Kind.SITE_DECISION,
            null,
            For.OFFICE,
            required("key", Form.text(120), SCOPE),
            required("from", Form.MOMENT, FROM),
            required("value", Form.text(200), "value"),
            required("owner", Form.text(120), "owner"),
            required("reason", Form.text(1000), "reason")),
    /** Before the assessments: a result told after one counts as not weighed in it. */
    EXPOSURE_RESULTS(
            Kind.EXPOSURE_RESULT,
            null,
            For.HYGIENE,
            evidence(
                    required("task", Form.named(Names.Sort.TASK), SUBJECT),
                    required("substance", Form.text(80), SCOPE),
                    required("at", Form.MOMENT, FROM),
                    required("value", Form.DECIMAL, "value"),
                    required("unit", Form.text(20), "unit"),
                    required("below_detection", Form.YES_NO, "belowDetection"),
                    optional("minutes", Form.WHOLE, "minutes"),
                    optional("method", Form.text(80), "method"),
                    optional("person", Form.text(30), "person"),
                    optional("laboratory", Form.text(120), "laboratory"),
                    optional("group", Form.text(80), "group"),
                    optional("period", Form.choice(ExposureResult.Period.values()), "period"),
                    optional("parts", Form.PARTS, "parts"))),
    TASK_BASES(
            Kind.TASK_BASIS,
            null,
            For.HYGIENE,
            evidence(
                    required("task", Form.named(Names.Sort.TASK), SUBJECT),
                    required("from", Form.MOMENT, FROM),
                    optional("exposures", Form.EXPOSURES, "exposures"),
                    required("mixture", Form.choice(TaskBasis.Mixture.values()), "mixture"),
                    required("atmosphere", Form.choice(TaskBasis.Atmosphere.values()), "atmosphere"),
                    optional("interfaces", Form.several(InterfaceType.values()), "interfaces"),
                    required("work_rate", Form.choice(MedicalOutcome.WorkRate.values()), "workRate"),
                    optional("statistic", Form.text(40), "statistic"),
                    optional("last_day", Form.DAY, "lastDay"),
                    optional("note", Form.text(2000), "note"),
                    optional("results_since", Form.DAY, "resultsSince"),
                    optional("shift_hours", Form.DECIMAL, "shiftHours"),
                    optional("long_shift", Form.choice(TaskBasis.LongShift.values()), "longShift"),
                    optional("assessor", Form.text(120), "assessor"),
                    optional("why_below", Form.text(2000), "whyBelow"))),
    POSTINGS(
            Kind.POSTING,
            null,
            For.PEOPLE,
            evidence(
                    required("worker", Form.named(Names.Sort.WORKER), SUBJECT),
                    required("task", Form.named(Names.Sort.TASK), ITEM),
                    required("from", Form.MOMENT, FROM),
                    optional("until", Form.MOMENT, UNTIL),
                    required("change", Form.choice(Posting.Change.values()), "change"))),
    TRAININGS(
            Kind.TRAINING,
            null,
            For.TEACHING,
            evidence(
                    required("worker", Form.named(Names.Sort.WORKER), SUBJECT),
                    required("model", Form.MODEL_CODE, SCOPE),
                    required("at", Form.MOMENT, FROM),
                    required("outcome", Form.choice(Outcome.values()), "outcome"),
                    required("demonstrated", Form.YES_NO, "demonstrated"),
                    optional("content_version", Form.text(40), "contentVersion"),
                    required("external", Form.YES_NO, "external"),
                    optional("trainer", Form.text(120), "trainer"))),
    MEDICAL_OUTCOMES(
            Kind.MEDICAL_OUTCOME,
            null,
            For.HEALTH,
            evidence(
                    required("worker", Form.named(Names.Sort.WORKER), SUBJECT),
                    required("at", Form.MOMENT, FROM),
                    required("result", Form.choice(MedicalOutcome.Result.values()), "result"),
                    optional("interfaces", Form.several(InterfaceType.values()), "interfaces"),
                    optional("max_wear_minutes", Form.WHOLE, "maxWearMinutes"),
                    optional("max_wbgt", Form.DECIMAL, "maxWbgt"),
                    optional("max_work_rate", Form.choice(MedicalOutcome.WorkRate.values()), "maxWorkRate"),
                    required("never_alone", Form.YES_NO, "neverAlone"),
                    optional("review_on", Form.DAY, "reviewOn"),
                    optional("organisation", Form.text(120), "organisation"))),
    FIT_TESTS(
            Kind.FIT_TEST,
            null,
            For.TEACHING,
            evidence(
                    required("worker", Form.named(Names.Sort.WORKER), SUBJECT),
                    required("variant", Form.VARIANT, SCOPE),
                    required("at", Form.MOMENT, FROM),
                    required("method", Form.choice(FitTest.Method.values()), "method"),
                    optional("protocol", Form.text(80), "protocol"),
                    optional("exercises", Form.FIGURES, "exercises"),
                    required("outcome", Form.choice(Outcome.values()), "outcome"),
                    required("negative_mode", Form.YES_NO, "negativeMode"),
                    optional("tester", Form.text(120), "tester"))),
    BOOKINGS(
            Kind.BOOKING,
            null,
            For.TEACHING,
            evidence(
                    required("worker", Form.named(Names.Sort.WORKER), SUBJECT),
                    required("at", Form.MOMENT, FROM),
                    required("what", Form.BOOKED, "what"),
                    optional("late_because", Form.text(500), "lateBecause"))),
    HOLDS(
            Kind.HOLD,
            null,
            For.HOLDING,
            evidence(
                    required("about", Form.ABOUT, SUBJECT),
                    required("at", Form.MOMENT, FROM),
                    required("step", Form.choice(Hold.Step.values()), "step"),
                    optional("ends", Form.text(80), ENDS),
                    required("why", Form.choice(Hold.Why.values()), "why"),
                    optional("reason", Form.text(1000), "reason"))),
    EMPLOYMENTS(
            Kind.EMPLOYMENT,
            null,
            For.PEOPLE,
            evidence(
                    required("worker", Form.named(Names.Sort.WORKER), SUBJECT),
                    required("from", Form.MOMENT, FROM),
                    required("change", Form.choice(Employment.Change.values()), "change"),
                    optional("last_day", Form.DAY, "lastDay"))),
    LEGAL_HOLDS(
            Kind.LEGAL_HOLD,
            null,
            For.OFFICE,
            evidence(
                    optional("about", Form.ABOUT_OR_SITE, SUBJECT),
                    required("at", Form.MOMENT, FROM),
                    required("step", Form.choice(LegalHold.Step.values()), "step"),
                    optional("ends", Form.text(80), ENDS),
                    required("reason", Form.text(1000), "reason"))),
    SYMPTOM_REPORTS(
            Kind.SYMPTOM_REPORT,
            null,
            For.HEALTH,
            evidence(
                    required("worker", Form.named(Names.Sort.WORKER), SUBJECT),
                    required("at", Form.MOMENT, FROM),
                    required("step", Form.choice(SymptomReport.Step.values()), "step"),
                    optional("ends", Form.text(80), ENDS),
                    optional("note", Form.text(2000), "note"))),
    OBSERVATIONS(
            Kind.OBSERVATION,
            null,
            For.ROUND,
            evidence(
                    required("worker", Form.named(Names.Sort.WORKER), SUBJECT),
                    required("at", Form.MOMENT, FROM),
                    required("seen", Form.choice(Observation.Seen.values()), "seen"),
                    optional("note", Form.text(2000), "note"))),
    WEARS(
            Kind.WEAR,
            null,
            For.ROUND,
            evidence(
                    required("worker", Form.named(Names.Sort.WORKER), SUBJECT),
                    required("set", Form.named(Names.Sort.SET), ITEM),
                    required("task", Form.named(Names.Sort.TASK), "task"),
                    required("from", Form.INSTANT, FROM),
                    optional("until", Form.INSTANT, UNTIL),
                    required("step", Form.choice(Wear.Step.values()), "step"))),
    PRE_USE_CHECKS(
            Kind.PRE_USE_CHECK,
            null,
            For.STORE,
            evidence(
                    required("set", Form.named(Names.Sort.SET), SUBJECT),
                    required("worker", Form.named(Names.Sort.WORKER), ITEM),
                    required("at", Form.INSTANT, FROM),
                    required("items", Form.ITEMS, "items"),
                    optional("reading", Form.DECIMAL, "reading"),
                    optional("indicator", Form.named(Names.Sort.INSTRUMENT), "indicator"),
                    optional("placement", Form.choice(Outcome.values()), "placement"),
                    optional("charge_percent", Form.WHOLE, "chargePercent"),
                    optional("note", Form.text(2000), "note"))),
    CUSTODY(
            Kind.CUSTODY,
            null,
            For.STORE,
            evidence(
                    required("set", Form.named(Names.Sort.SET), SUBJECT),
                    required("at", Form.MOMENT, FROM),
                    required("claim", Form.choice(Custody.Claim.values()), "claim"),
                    optional("worker", Form.named(Names.Sort.WORKER), ITEM),
                    optional("worn", Form.YES_NO, "worn"),
                    optional("note", Form.text(2000), "note"))),
    CALIBRATIONS(
            Kind.CALIBRATION,
            null,
            For.STORE,
            evidence(
                    required("instrument", Form.named(Names.Sort.INSTRUMENT), SUBJECT),
                    required("at", Form.MOMENT, FROM),
                    required("outcome", Form.choice(Outcome.values()), "outcome"),
                    required("as_found_in_tolerance", Form.YES_NO, "asFoundInTolerance"),
                    required("factor", Form.DECIMAL, "factor"),
                    optional("uncertainty", Form.DECIMAL, "uncertainty"),
                    required("celsius", Form.DECIMAL, "celsius"),
                    required("hectopascals", Form.DECIMAL, "hectopascals"),
                    required("last_day", Form.DAY, "lastDay"),
                    optional("certificate", Form.text(80), "certificate"),
                    optional("as_found_factor", Form.DECIMAL, "asFoundFactor"))),
    FLOW_CHECKS(
            Kind.FLOW_CHECK,
            null,
            For.STORE,
            evidence(
                    required("set", Form.named(Names.Sort.SET), SUBJECT),
                    required("at", Form.MOMENT, FROM),
                    required("reading", Form.DECIMAL, "reading"),
                    required("instrument", Form.named(Names.Sort.INSTRUMENT), "instrument"),
                    optional("celsius", Form.DECIMAL, "celsius"),
                    optional("hectopascals", Form.DECIMAL, "hectopascals"))),
    EXAMINATIONS(
            Kind.EXAMINATION,
            null,
            For.STORE,
            evidence(
                    required("set", Form.named(Names.Sort.SET), SUBJECT),
                    required("at", Form.MOMENT, FROM),
                    required("outcome", Form.choice(Outcome.values()), "outcome"),
                    optional("reading", Form.DECIMAL, "reading"),
                    optional("indicator", Form.named(Names.Sort.INSTRUMENT), "indicator"),
                    optional("examiner", Form.text(120), "examiner"),
                    optional("note", Form.text(2000), "note"))),
    CLEANINGS(
            Kind.CLEANING,
            null,
            For.STORE,
            evidence(
                    required("set", Form.named(Names.Sort.SET), SUBJECT),
                    required("at", Form.MOMENT, FROM),
                    required("method", Form.choice(Cleaning.Method.values()), "method"),
                    optional("product", Form.text(40), "product"),
                    optional("strength", Form.DECIMAL, "strength"),
                    optional("strength_basis", Form.text(60), "strengthBasis"),
                    optional("wet_seconds", Form.WHOLE, "wetSeconds"),
                    optional("celsius", Form.DECIMAL, "celsius"))),
    PART_CHANGES(
            Kind.PART_CHANGE,
            null,
            For.STORE,
            evidence(
                    required("set", Form.named(Names.Sort.SET), SUBJECT),
                    required("slot", Form.text(40), SCOPE),
                    required("at", Form.MOMENT, FROM),
                    required("part", Form.text(40), "part"),
                    optional("lot", Form.text(60), "lot"),
                    optional("serial", Form.text(60), "serial"),
                    optional("made_on", Form.DAY, "madeOn"),
                    required("fitter_trained", Form.YES_NO, "fitterTrained"),
                    optional("fitter", Form.text(120), "fitter"))),
    STOCK_RECEIPTS(
            Kind.STOCK_RECEIPT,
            null,
            For.STORE,
            evidence(
                    required("item", Form.text(40), SCOPE),
                    required("at", Form.MOMENT, FROM),
                    required("pieces", Form.WHOLE, "pieces"),
                    optional("lot", Form.text(60), "lot"),
                    optional("last_day", Form.DAY, "lastDay"),
                    optional("ordered_on", Form.DAY, "orderedOn"),
                    optional("delivery", Form.text(120), "delivery"))),
    STOCK_USES(
            Kind.STOCK_USE,
            null,
            For.STORE,
            evidence(
                    required("item", Form.text(40), SCOPE),
                    required("at", Form.MOMENT, FROM),
                    required("pieces", Form.WHOLE, "pieces"),
                    required("use", Form.choice(StockUse.Use.values()), "use"),
                    optional("lot", Form.text(60), "lot"),
                    optional("set", Form.named(Names.Sort.SET), ITEM))),
    STOCK_COUNTS(
            Kind.STOCK_COUNT,
            null,
            For.STORE,
            evidence(
                    required("item", Form.text(40), SCOPE),
                    required("at", Form.MOMENT, FROM),
                    required("pieces", Form.WHOLE, "pieces"),
                    optional("lot", Form.text(60), "lot"),
                    optional("last_day", Form.DAY, "lastDay"))),
    BATTERY_TESTS(
            Kind.BATTERY_TEST,
            null,
            For.STORE,
            evidence(
                    required("set", Form.named(Names.Sort.SET), SUBJECT),
                    required("at", Form.MOMENT, FROM),
                    required("ran_minutes", Form.WHOLE, "minutes"),
                    required("filter_loaded", Form.YES_NO, "filterLoaded"),
                    optional("serial", Form.text(60), "serial"),
                    optional("tester", Form.text(120), "tester"))),
    DEFECTS(
            Kind.DEFECT,
            null,
            For.STORE,
            evidence(
                    required("set", Form.named(Names.Sort.SET), SUBJECT),
                    required("at", Form.MOMENT, FROM),
                    required("step", Form.choice(Defect.Step.values()), "step"),
                    optional("ends", Form.text(80), ENDS),
                    optional("part", Form.text(40), "part"),
                    optional("note", Form.text(2000), "note"))),
    AIR_TESTS(
            Kind.AIR_TEST,
            null,
            For.STORE,
            evidence(
                    required("supply", Form.named(Names.Sort.SUPPLY), SUBJECT),
                    required("at", Form.MOMENT, FROM),
                    required("outcome", Form.choice(Outcome.values()), "outcome"),
                    required("edition", Form.text(80), "edition"),
                    optional("oxygen_percent", Form.DECIMAL, "oxygenPercent"),
                    optional("carbon_monoxide_ppm", Form.DECIMAL, "carbonMonoxidePpm"),
                    optional("carbon_dioxide_ppm", Form.DECIMAL, "carbonDioxidePpm"),
                    optional("oil_mg_per_m3", Form.DECIMAL, "oilMgPerM3"),
                    optional("dew_point_celsius", Form.DECIMAL, "dewPointCelsius"),
                    optional("tester", Form.text(120), "tester"),
                    optional("uncertainty_percent", Form.DECIMAL, "uncertaintyPercent"),
                    optional("lowest_celsius", Form.DECIMAL, "lowestCelsius"),
                    optional("litres_per_minute", Form.DECIMAL, "litresPerMinute"))),
    SUPPLY_MOVES(
            Kind.SUPPLY_MOVE,
            null,
            For.STORE,
            evidence(
                    required("supply", Form.named(Names.Sort.SUPPLY), SUBJECT),
                    required("at", Form.MOMENT, FROM),
                    required("place", Form.text(120), "place"))),
    TASK_TRIGGERS(
            Kind.TASK_TRIGGER,
            null,
            For.HYGIENE,
            evidence(
                    required("task", Form.named(Names.Sort.TASK), SUBJECT),
                    required("at", Form.MOMENT, FROM),
                    required("step", Form.choice(TaskTrigger.Step.values()), "step"),
                    optional("ends", Form.text(80), ENDS),
                    required("what", Form.text(80), "what"),
                    optional("note", Form.text(2000), "note"))),
    MEASURED_CONDITIONS(
            Kind.MEASURED_CONDITION,
            null,
            For.HYGIENE,
            evidence(
                    required("task", Form.named(Names.Sort.TASK), SUBJECT),
                    required("at", Form.MOMENT, FROM),
                    required("quantity", Form.choice(MeasuredCondition.Quantity.values()), "quantity"),
                    required("value", Form.DECIMAL, "value")));

    /** Who may bring a file in, and who may take it out. */
    private enum For {
        OFFICE(Set.of(Role.OFFICER), Set.of(Role.OFFICER)),
        PEOPLE(Set.of(Role.OFFICER), Set.of(Role.OFFICER, Role.EMPLOYER)),
        TEACHING(Set.of(Role.OFFICER, Role.TRAINER), Set.of(Role.OFFICER, Role.TRAINER, Role.EMPLOYER)),
        ROUND(Set.of(Role.OFFICER), Set.of(Role.OFFICER)),
        STORE(Set.of(Role.OFFICER, Role.STOREKEEPER), Set.of(Role.OFFICER, Role.STOREKEEPER)),
        /** A file of holds may suspend people, or let them in again; the store takes out those on things. */
        HOLDING(Set.of(Role.OFFICER), Set.of(Role.OFFICER, Role.STOREKEEPER)),
        HYGIENE(Set.of(Role.OFFICER, Role.HYGIENIST), Set.of(Role.OFFICER, Role.HYGIENIST)),
        /** Behind the wall: not even the safety officer. */
        HEALTH(Set.of(Role.HEALTH), Set.of(Role.HEALTH));

        private final Set<Role> bringers;
        private final Set<Role> takers;

        For(Set<Role> bringers, Set<Role> takers) {
            this.bringers = bringers;
            this.takers = takers;
        }
    }

    private final @Nullable Kind kind;
    private final Names.@Nullable Sort register;
    private final For roles;
    private final List<Column> columns;

    FileKind(@Nullable Kind kind, Names.@Nullable Sort register, For roles, Column... columns) {
        this.kind = kind;
        this.register = register;
        this.roles = roles;
        this.columns = List.of(columns);
    }

    /** Every file of evidence begins with the site's own number of the record and ends with what another system claims. */
    private static Column[] evidence(Column... own) {
        List<Column> all = new ArrayList<>();
        all.add(required("source_id", Form.text(80), SOURCE));
        all.addAll(List.of(own));
        all.add(optional("told_claimed", Form.DAY, CLAIM));
        return all.toArray(Column[]::new);
    }

    /** As it stands in addresses and file names. */
    public String slug() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    public static Optional<FileKind> ofSlug(String slug) {
        return Stream.of(values()).filter(kind -> kind.slug().equals(slug)).findFirst();
    }

    public boolean mayBeBroughtBy(Set<Role> roles) {
        return roles.stream().anyMatch(this.roles.bringers::contains);
    }

    public boolean mayBeTakenBy(Set<Role> roles) {
        return roles.stream().anyMatch(this.roles.takers::contains);
    }

    /** Only the employer's own staff stands in the file for somebody who may see no more. */
    boolean takesAll(Set<Role> roles) {
        return roles.stream().anyMatch(role -> role != Role.EMPLOYER && this.roles.takers.contains(role));
    }

    /** The columns as the pages explain them, in the order of the export. */
    public List<ColumnLine> lines() {
        return columns.stream().map(column -> ColumnLine.of(this, column)).toList();
    }

    /** What the ledger is told; none for a file that only enters names. */
    @Nullable Kind kind() {
        return kind;
    }

    /** The register in which the file enters names; none where it only names what is there. */
    Names.@Nullable Sort register() {
        return register;
    }

    List<Column> columns() {
        return columns;
    }

    @Nullable Column at(Column.Place place) {
        return columns.stream()
                .filter(column -> column.place() == place)
                .findFirst()
                .orElse(null);
    }

    /** Rows carry the site's own number; without it a row is known by its name and its beginning. */
    boolean hasSource() {
        return at(SOURCE) != null;
    }

    public boolean isMedical() {
        return roles == For.HEALTH;
    }

    /** A day in the column of beginnings is a first day: what begins then holds from its first instant. */
    boolean beginsByDay() {
        return kind != null && (kind.mayBeginLater() || kind == Kind.SET);
    }

    /** Fields that the service derives itself, and that no file states. */
    Set<String> derived() {
        return this == FLOW_CHECKS ? Set.of("corrected", "minimum", "uncertainty", "outcome") : Set.of();
    }
}
