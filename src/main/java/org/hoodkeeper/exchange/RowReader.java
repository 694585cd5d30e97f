package org.hoodkeeper.exchange;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.evidence.Accept;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.LegalHold;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.Observation;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.SymptomReport;
import org.hoodkeeper.facts.TaskTrigger;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.ledger.FactJson;
import org.hoodkeeper.ledger.Ids;
import org.jspecify.annotations.Nullable;

/** Understands the rows of one file, or says of each cell why not. Guesses nothing. */
final class RowReader {

    private final FileKind kind;
    private final Names names;
    private final Moments moments;
    private final UUID site;
    private final Judge judge;
    private final Instant now;
    private final List<Column> order = new ArrayList<>();

    /** Derives what a file does not state, like the door of that kind. */
    @FunctionalInterface
    interface Judge {
        Fact judge(Fact fact, UUID subject, @Nullable String scope, Instant from);
    }

    /**
     * @param header the file's first row
     * @param now an event may not lie after it
     * @throws Refused {@code exchange.file.…} when a column is missing, unknown or there twice
     */
    RowReader(FileKind kind, List<String> header, UUID site, Names names, Moments moments, Judge judge, Instant now) {
        this.kind = kind;
        this.site = site;
        this.names = names;
        this.moments = moments;
        this.judge = judge;
        this.now = now;
        if (header.size() == 1 && header.get(0).indexOf(';') > 0) {
            throw new Refused("exchange.file.semicolons");
        }
        Map<String, Column> known = new LinkedHashMap<>();
        kind.columns().forEach(column -> known.put(column.name(), column));
        for (String name : header) {
            Column column = known.remove(name);
            if (column == null) {
                throw new Refused(
                        order.stream().anyMatch(one -> one.name().equals(name))
                                ? "exchange.file.columnTwice"
                                : "exchange.file.columnUnknown",
                        name,
                        String.join(", ", known.keySet()));
            }
            order.add(column);
        }
        known.values().stream().filter(Column::isRequired).findFirst().ifPresent(missing -> {
            throw new Refused("exchange.file.columnMissing", missing.name());
        });
    }

    /** @return the row, or null when {@code refusals} says why not */
    @Nullable StagedRow read(long row, List<String> cells, List<RowRefusal> refusals) {
        if (cells.size() != order.size()) {
            refusals.add(RowRefusal.of(
                    row, "", String.valueOf(cells.size()), new Refused("exchange.cells", cells.size(), order.size())));
            return null;
        }
        int before = refusals.size();
        Map<String, Object> fields = new HashMap<>();
        Map<Column.Place, Object> places = new EnumMap<>(Column.Place.class);
        Map<Column.Place, String> times = new EnumMap<>(Column.Place.class);
        for (int i = 0; i < cells.size(); i++) {
            Column column = order.get(i);
            String cell = cells.get(i).strip();
            try {
                if (cell.isEmpty()) {
                    if (column.isRequired()) {
                        throw new Refused("exchange.missing", column.name());
                    }
                    continue;
                }
                Object value = column.form().read(column.form().isText() ? Guard.take(cell) : cell, names);
                if (column.form() == Form.MOMENT || column.form() == Form.INSTANT) {
                    times.put(column.place(), cell);
                } else if (column.field() != null) {
                    fields.put(column.field(), value);
                } else {
                    places.put(column.place(), value);
                }
            } catch (Refused refused) {
                refusals.add(RowRefusal.of(row, column.name(), cell, refused));
            }
        }
        if (refusals.size() > before) {
            return null;
        }
        return build(row, fields, places, times, refusals);
    }

    private @Nullable StagedRow build(
            long row,
            Map<String, Object> fields,
            Map<Column.Place, Object> places,
            Map<Column.Place, String> times,
            List<RowRefusal> refusals) {
        int before = refusals.size();
        Fact fact = fact(row, fields, places, refusals);
        Instant from = null;
        Instant until = null;
        if (fact != null) {
            from = beginning(row, fact, times, refusals);
            until = end(row, fact, from, times, refusals);
        }
        if (fact != null && from != null && refusals.size() == before) {
            fact = accepted(row, fact, places, from, until, refusals);
        }
        if (refusals.size() > before) {
            return null;
        }
        String code = (String) places.get(Column.Place.REGISTER);
        Names.Sort register = kind.register();
        boolean brandNew = register != null && code != null && names.find(register, code) == null;
        UUID subject = register != null && code != null ? names.idOrNew(register, code, Ids::next) : subject(places);
        Object claim = places.get(Column.Place.CLAIM);
        return new StagedRow(
                row,
                code,
                (String) places.get(Column.Place.PERSON),
                (String) places.get(Column.Place.EMPLOYER),
                subject,
                (UUID) places.get(Column.Place.ITEM),
                (String) places.get(Column.Place.ENDS),
                (String) places.get(Column.Place.SCOPE),
                from,
                until,
                (String) places.get(Column.Place.SOURCE),
                claim == null ? null : LocalDate.parse((String) claim),
                fact == null ? null : FactJson.open(fact),
                fact == null ? null : FactJson.hidden(fact),
                fact instanceof FlowCheck check && check.corrected() == null,
                brandNew);
    }

    private @Nullable Fact fact(
            long row, Map<String, Object> fields, Map<Column.Place, Object> places, List<RowRefusal> refusals) {
        Kind ledgerKind = kind.kind();
        if (ledgerKind == null) {
            return null;
        }
        try {
            if (ledgerKind == Kind.FLOW_CHECK) {
                fields.put("outcome", Outcome.FAIL.name());
            }
            Fact fact = FactJson.of(fields, ledgerKind.type());
            requireSecondParty(fact, places);
            Accept.fact(fact);
            return fact;
        } catch (Refused refused) {
            refusals.add(refusal(row, fields, refused));
            return null;
        }
    }

    private @Nullable Instant beginning(
            long row, Fact fact, Map<Column.Place, String> times, List<RowRefusal> refusals) {
        Column column = kind.at(Column.Place.FROM);
        if (column == null) {
            return null;
        }
        Instant from = time(row, column, times, meaning(fact), refusals);
        if (from != null && from.isAfter(now) && !Kind.of(fact).mayBeginLater()) {
            String text = text(times, Column.Place.FROM);
            String code = text.length() == 10 ? "exchange.dayNotOver" : "exchange.future";
            refusals.add(RowRefusal.of(row, column.name(), text, new Refused(code, moments.write(from))));
        }
        return from;
    }

    private @Nullable Instant end(
            long row, Fact fact, @Nullable Instant from, Map<Column.Place, String> times, List<RowRefusal> refusals) {
        Column column = kind.at(Column.Place.UNTIL);
        if (column == null || !times.containsKey(Column.Place.UNTIL)) {
            return null;
        }
        Instant until = time(row, column, times, Moments.Meaning.UNTIL_ITS_END, refusals);
        if (until != null && until.isAfter(now) && !Kind.of(fact).mayBeginLater()) {
            String text = text(times, Column.Place.UNTIL);
            String code = text.length() == 10 ? "exchange.dayNotOver" : "exchange.future";
            refusals.add(RowRefusal.of(row, column.name(), text, new Refused(code, moments.write(until))));
        }
        if (from != null && until != null && !until.isAfter(from)) {
            refusals.add(RowRefusal.of(
                    row,
                    column.name(),
                    text(times, Column.Place.UNTIL),
                    new Refused("exchange.order", text(times, Column.Place.FROM))));
        }
        return until;
    }

    /** What the doors ask of a record with its time, and what they derive. */
    private Fact accepted(
            long row,
            Fact fact,
            Map<Column.Place, Object> places,
            Instant from,
            @Nullable Instant until,
            List<RowRefusal> refusals) {
        try {
            Accept.at(from);
            if (fact instanceof Wear wear) {
                if ((wear.step() == Wear.Step.WHOLE) != (until != null)) {
                    throw new Refused("exchange.until.wear");
                }
                if (until != null) {
                    Accept.wear(from, until);
                }
            }
            if (fact instanceof MedicalOutcome outcome) {
                Accept.reviewDay(outcome, Days.of(from, moments.zone()));
            }
            return judge.judge(fact, subject(places), (String) places.get(Column.Place.SCOPE), from);
        } catch (Refused refused) {
            refusals.add(refusal(row, FactJson.values(fact), refused));
            return fact;
        }
    }

    /** In the column that the refusal's code names by its field, else for the whole row. */
    private RowRefusal refusal(long row, Map<String, Object> fields, Refused refused) {
        Column column = Column.named(order, refused);
        if (column != null) {
            Object value = column.field() == null ? null : fields.get(column.field());
            String text = value == null ? "" : column.form().write(value, names);
            return RowRefusal.of(row, column.name(), text, refused);
        }
        return RowRefusal.of(row, "", "", refused);
    }

    private UUID subject(Map<Column.Place, Object> places) {
        return places.get(Column.Place.SUBJECT) instanceof UUID id ? id : site;
    }

    private static String text(Map<Column.Place, String> times, Column.Place place) {
        return times.getOrDefault(place, "");
    }

    private @Nullable Instant time(
            long row,
            Column column,
            Map<Column.Place, String> times,
            Moments.Meaning meaning,
            List<RowRefusal> refusals) {
        String text = text(times, column.place());
        try {
            return column.form() == Form.INSTANT ? moments.instant(text) : moments.read(text, meaning);
        } catch (Refused refused) {
            refusals.add(RowRefusal.of(row, column.name(), text, refused));
            return null;
        }
    }

    private Moments.Meaning meaning(Fact fact) {
        return kind.beginsByDay() || takesAway(fact) ? Moments.Meaning.FROM_ITS_START : Moments.Meaning.CLEARS;
    }

    /** What ends a clearance may not wait for the next day: a wrong "yes" on that day would be the worse mistake. */
    private static boolean takesAway(Fact fact) {
        return switch (Kind.of(fact)) {
            case HOLD -> ((Hold) fact).step() == Hold.Step.PLACED;
            case LEGAL_HOLD -> ((LegalHold) fact).step() == LegalHold.Step.PLACED;
            case DEFECT -> ((Defect) fact).step() == Defect.Step.FOUND;
            case SYMPTOM_REPORT -> ((SymptomReport) fact).step() == SymptomReport.Step.REPORTED;
            case TASK_TRIGGER -> ((TaskTrigger) fact).step() == TaskTrigger.Step.OPENED;
            case OBSERVATION -> {
                Observation.Seen seen = ((Observation) fact).seen();
                yield seen != Observation.Seen.CLEAR_AT_SEAL && seen != Observation.Seen.WORN_RIGHT;
            }
            case MEDICAL_OUTCOME -> !((MedicalOutcome) fact).isFit();
            case CUSTODY -> ((Custody) fact).claim() == Custody.Claim.MISSING;
            case PART_CHANGE, SUPPLY_MOVE -> true;
            default ->
                FactJson.values(fact).get("outcome") instanceof String outcome && outcome.equals(Outcome.FAIL.name());
        };
    }

    private static void requireSecondParty(Fact fact, Map<Column.Place, Object> places) {
        boolean ends = places.containsKey(Column.Place.ENDS);
        boolean names = places.containsKey(Column.Place.ITEM);
        switch (Kind.of(fact)) {
            case HOLD -> requireEnds(((Hold) fact).step() == Hold.Step.RELEASED, ends);
            case LEGAL_HOLD -> requireEnds(((LegalHold) fact).step() == LegalHold.Step.RELEASED, ends);
            case DEFECT -> requireEnds(((Defect) fact).step() == Defect.Step.MENDED, ends);
            case SYMPTOM_REPORT -> requireEnds(((SymptomReport) fact).step() == SymptomReport.Step.REVIEWED, ends);
            case TASK_TRIGGER -> requireEnds(((TaskTrigger) fact).step() == TaskTrigger.Step.CLOSED, ends);
            case CUSTODY -> {
                if (((Custody) fact).claim() == Custody.Claim.ISSUED && !names) {
                    throw new Refused("exchange.worker.custody");
                }
            }
            default -> {
                // a required column says it already
            }
        }
    }

    private static void requireEnds(boolean needed, boolean given) {
        if (needed != given) {
            throw new Refused(needed ? "exchange.ends.missing" : "exchange.ends.notNeeded");
        }
    }
}
