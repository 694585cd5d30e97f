package org.hoodkeeper.exchange;

import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Stream;
import org.hoodkeeper.evidence.FitTests;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.FitTest;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Variant;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.FactJson;
import org.hoodkeeper.ledger.History;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * A record of any kind as the cells that a person can look at and type over, and back again: the same columns, words and refusals
 * as in the kind's file, so that each kind has one spelling.
 */
@Service
@Transactional(readOnly = true)
public class Rewriting {

    private final Lines lines;
    private final Shelves shelves;
    private final FitTests fitTests;
    private final JdbcTemplate jdbc;
    private final Clock clock;

    Rewriting(Lines lines, Shelves shelves, FitTests fitTests, JdbcTemplate jdbc, Clock clock) {
        this.lines = lines;
        this.shelves = shelves;
        this.fitTests = fitTests;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /**
     * One cell of a record.
     *
     * @param column what it means and how it is written
     * @param text as the file has it, but for an instant; empty for nothing
     * @param moment the instant in it, which the text has on the site's clock, to the minute
     * @param choices the constants behind the words that it may hold, where it holds exactly one of them
     */
    public record Cell(
            ColumnLine column, String text, @Nullable Instant moment, List<Enum<?>> choices) {

        public boolean isYesNo() {
            return choices.isEmpty() && column.formKey().equals("exchange.form.choice");
        }

        public boolean isLong() {
            return column.name().equals("note")
                    || column.name().equals("reason")
                    || column.name().equals("late_because");
        }
    }

    /** A cell that could not be taken over. @param column empty for the whole record */
    public record Wrong(String column, Refused why) {}

    /** What a person typed, understood or not. */
    public record Read(@Nullable Draft stated, List<Wrong> wrong) {}

    /** Whether records of the kind can be typed over; the others are taken back and told anew. */
    public static boolean isRewritten(Kind kind) {
        return Stream.of(FileKind.values()).anyMatch(one -> one.kind() == kind);
    }

    /**
     * The record as it was told, names and free text with it: show it only to who may see them.
     *
     * @return nothing for a kind that is not {@link #isRewritten}
     */
    public List<Cell> cells(SiteId site, History.Version version) {
        if (!isRewritten(version.kind())) {
            return List.of();
        }
        FileKind kind = kind(version.kind());
        Names names = shelves.names(site);
        CellWriter.Line line = line(site, kind, version, names);
        Moments moments = shelves.moments(site);
        List<String> texts = new CellWriter(kind, names, moments).cells(line);
        List<Cell> cells = new ArrayList<>();
        for (int i = 0; i < kind.columns().size(); i++) {
            Column column = kind.columns().get(i);
            if (isTyped(column)) {
                Instant moment = moment(column, line);
                cells.add(new Cell(
                        ColumnLine.of(kind, column),
                        moment == null ? Guard.take(texts.get(i)) : moments.onClock(moment),
                        moment,
                        column.form().constants()));
            }
        }
        return cells;
    }

    /** @param typed cells by the name of their column; what is missing is empty */
    public Read read(SiteId site, History.Version version, Map<String, String> typed) {
        FileKind kind = kind(version.kind());
        Names names = shelves.names(site);
        CellWriter.Line old = line(site, kind, version, names);
        Moments moments = shelves.moments(site);
        RowReader reader = new RowReader(
                kind,
                kind.columns().stream().map(Column::name).toList(),
                site.value(),
                names,
                moments,
                judge(site, kind),
                clock.instant());
        List<RowRefusal> refusals = new ArrayList<>();
        List<Wrong> wrong = new ArrayList<>();
        List<String> cells = new ArrayList<>();
        for (Column column : kind.columns()) {
            try {
                cells.add(cell(column, old, typed, moments));
            } catch (Refused refused) {
                wrong.add(new Wrong(column.name(), refused));
            }
        }
        if (!wrong.isEmpty()) {
            return new Read(null, wrong);
        }
        StagedRow row = reader.read(2, cells, refusals);
        refusals.forEach(refusal -> wrong.add(new Wrong(refusal.column(), refusal.refused())));
        if (row == null) {
            return new Read(null, wrong);
        }
        try {
            return new Read(draft(site, kind, version, old, row), wrong);
        } catch (Refused refused) {
            return new Read(null, List.of(new Wrong(Objects.requireNonNullElse(endsName(kind), ""), refused)));
        }
    }

    private static @Nullable String endsName(FileKind kind) {
        Column ends = kind.at(Column.Place.ENDS);
        return ends == null ? null : ends.name();
    }

    private static boolean isTyped(Column column) {
        return switch (column.place()) {
            case SOURCE, REGISTER, CLAIM, PERSON, EMPLOYER -> false;
            default -> true;
        };
    }

    /** A time that nobody touched stays the very instant that it was, seconds and all. */
    private static String cell(Column column, CellWriter.Line old, Map<String, String> typed, Moments moments) {
        return switch (column.place()) {
            case SOURCE -> old.source() == null ? "-" : old.source();
            case REGISTER -> old.code() == null ? "" : old.code();
            case CLAIM -> "";
            case FROM, UNTIL -> {
                String text = typed.getOrDefault(column.name(), "").strip();
                Instant before = moment(column, old);
                yield before != null && text.equals(moments.onClock(before))
                        ? moments.write(before)
                        : moments.ofClock(text);
            }
            default -> {
                String text = typed.getOrDefault(column.name(), "").strip();
                yield column.form().isText() ? Guard.put(text) : text;
            }
        };
    }

    private static @Nullable Instant moment(Column column, CellWriter.Line line) {
        return switch (column.place()) {
            case FROM -> line.from();
            case UNTIL -> line.until();
            default -> null;
        };
    }

    private Draft draft(SiteId site, FileKind kind, History.Version version, CellWriter.Line old, StagedRow row) {
        Instant from = Objects.requireNonNull(row.from(), "a row of evidence has its time");
        if (row.until() != null
                && row.until().isAfter(clock.instant())
                && !version.kind().mayBeginLater()) {
            throw new Refused("ledger.future", row.until());
        }
        Map<String, Object> fields = new HashMap<>(FactJson.values(Objects.requireNonNull(row.body(), "a fact")));
        if (row.hidden() != null) {
            fields.putAll(FactJson.values(row.hidden()));
        }
        Fact fact = FactJson.of(fields, version.kind().type());
        UUID item = kind.at(Column.Place.ENDS) == null ? row.item() : ended(site, version, old, row.reference());
        return new Draft(fact, row.subject(), item, row.scope(), from, row.until(), null, null, null);
    }

    /** The version that stands of the record that this one ends. */
    private @Nullable UUID ended(SiteId site, History.Version version, CellWriter.Line old, @Nullable String name) {
        if (name == null) {
            return null;
        }
        if (name.equals(old.ends())) {
            return version.told().item();
        }
        return jdbc
                .query(
                        """
                        with recursive down(id) as (
                            select r.id from ledger_record r
                            where r.site_id = ? and r.kind = ? and (r.source_id = ? or r.id::text = ?)
                            union all
                            select c.id from down join ledger_record c on c.site_id = ? and c.corrects = down.id)
                        select d.id from down d
                        where not exists (select 1 from ledger_record c where c.site_id = ? and c.corrects = d.id)""",
                        (found, n) -> found.getObject(1, UUID.class),
                        site.value(),
                        version.kind().number(),
                        name,
                        name,
                        site.value(),
                        site.value())
                .stream()
                .findFirst()
                .orElseThrow(() -> new Refused("exchange.ends.unknown", name));
    }

    private CellWriter.Line line(SiteId site, FileKind kind, History.Version version, Names names) {
        CellWriter.Line line = lines.one(site, kind, version.told().id().value(), names);
        if (line == null) {
            throw new IllegalStateException(
                    "a record that was just found is gone: " + version.told().id());
        }
        return line;
    }

    private RowReader.Judge judge(SiteId site, FileKind kind) {
        FlowJudge flows = kind == FileKind.FLOW_CHECKS ? shelves.flows(site) : null;
        return (fact, subject, scope, from) -> {
            if (fact instanceof FlowCheck check && flows != null) {
                return flows.judge(check, subject, from);
            }
            if (fact instanceof FitTest test && scope != null) {
                return fitTests.judge(site, Variant.of(scope), test, from).test();
            }
            return fact;
        };
    }

    private static FileKind kind(Kind kind) {
        return Stream.of(FileKind.values())
                .filter(one -> one.kind() == kind)
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no file of " + kind));
    }
}
