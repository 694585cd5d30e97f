package org.hoodkeeper.exchange;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.evidence.FiguresOnRecord;
import org.hoodkeeper.evidence.StatedFigures;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.FactJson;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;

/**
 * Whether the new limits and assessments of a file go with what is on record, as their doors ask of each. What is on record
 * already is not asked again: the same file twice changes nothing, whatever was told in between.
 */
@Component
class FigureCheck {

    private final JdbcTemplate jdbc;
    private final StatedFigures figures;
    private final Shelves shelves;

    FigureCheck(JdbcTemplate jdbc, StatedFigures figures, Shelves shelves) {
        this.jdbc = jdbc;
        this.figures = figures;
        this.shelves = shelves;
    }

    private record Row<F extends Fact>(long number, Told<F> told) {}

    /** @return why rows cannot be recorded, in the order of the file; call it once the file is compared */
    List<RowRefusal> refusals(SiteId site, UUID job, FileKind kind) {
        return switch (kind) {
            case LIMITS -> limits(site, job, rows(site, job, Limit.class));
            case TASK_BASES -> bases(site, job, rows(site, job, TaskBasis.class));
            default -> List.of();
        };
    }

    private List<RowRefusal> limits(SiteId site, UUID job, List<Row<Limit>> rows) {
        FiguresOnRecord all = figures.of(site).with(rows.stream().map(Row::told).toList(), List.of());
        return refusals(
                site,
                FileKind.LIMITS,
                rows,
                told -> all.require(String.valueOf(told.scope()), told.fact(), told.from()));
    }

    private List<RowRefusal> bases(SiteId site, UUID job, List<Row<TaskBasis>> rows) {
        FiguresOnRecord all =
                figures.of(site).with(List.of(), rows.stream().map(Row::told).toList());
        return refusals(site, FileKind.TASK_BASES, rows, told -> all.require(told.subject(), told.fact(), told.from()));
    }

    private interface Asking<F extends Fact> {
        void ask(Told<F> told);
    }

    private <F extends Fact> List<RowRefusal> refusals(
            SiteId site, FileKind kind, List<Row<F>> rows, Asking<F> asking) {
        Names names = shelves.names(site);
        List<RowRefusal> refusals = new ArrayList<>();
        for (Row<F> row : rows) {
            try {
                asking.ask(row.told());
            } catch (Refused refused) {
                Column column = Column.named(kind.columns(), refused);
                refusals.add(RowRefusal.of(
                        row.number(), column == null ? "" : column.name(), value(column, row.told(), names), refused));
            }
        }
        return refusals;
    }

    private static String value(@Nullable Column column, Told<?> told, Names names) {
        if (column == null) {
            return "";
        }
        Object value = column.place() == Column.Place.SCOPE
                ? told.scope()
                : FactJson.values(told.fact()).get(String.valueOf(column.field()));
        return value == null ? "" : column.form().write(value, names);
    }

    private <F extends Fact> List<Row<F>> rows(SiteId site, UUID job, Class<F> type) {
        return jdbc.query(
                "select row_no, record_id, subject, scope, true_from, body, hidden from import_row"
                        + " where site_id = ? and job_id = ? and not found and found_id is null order by row_no",
                (row, n) -> new Row<>(row.getLong(1), told(row, type)),
                site.value(),
                job);
    }

    private static <F extends Fact> Told<F> told(ResultSet row, Class<F> type) throws SQLException {
        Instant from = row.getTimestamp(5).toInstant();
        Map<String, Object> fields = new HashMap<>(FactJson.values(row.getString(6)));
        if (row.getString(7) != null) {
            fields.putAll(FactJson.values(row.getString(7)));
        }
        return new Told<>(
                new RecordId(row.getObject(2, UUID.class)),
                row.getObject(3, UUID.class),
                null,
                row.getString(4),
                from,
                null,
                from,
                null,
                FactJson.of(fields, type));
    }
}
