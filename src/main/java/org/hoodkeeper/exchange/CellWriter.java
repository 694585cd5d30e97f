package org.hoodkeeper.exchange;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.ledger.FactJson;
import org.jspecify.annotations.Nullable;

/** Writes a record as the cells of its file, as the import would read them. */
final class CellWriter {

    private final FileKind kind;
    private final Names names;
    private final Moments moments;

    CellWriter(FileKind kind, Names names, Moments moments) {
        this.kind = kind;
        this.names = names;
        this.moments = moments;
    }

    /**
     * What stands on a row.
     *
     * @param source the record's name in files
     * @param ends the name of the record that it ends
     */
    record Line(
            @Nullable String source,
            @Nullable String code,
            @Nullable String person,
            @Nullable String employer,
            @Nullable UUID subject,
            @Nullable UUID item,
            @Nullable String ends,
            @Nullable String scope,
            @Nullable Instant from,
            @Nullable Instant until,
            @Nullable LocalDate toldClaimed,
            @Nullable String body,
            @Nullable String hidden) {}

    List<String> header() {
        return kind.columns().stream().map(Column::name).toList();
    }

    List<String> cells(Line line) {
        Map<String, Object> fields = new HashMap<>();
        if (line.body() != null) {
            fields.putAll(FactJson.values(line.body()));
        }
        if (line.hidden() != null) {
            fields.putAll(FactJson.values(line.hidden()));
        }
        List<String> cells = new ArrayList<>();
        for (Column column : kind.columns()) {
            Object value = value(column, line, fields);
            String text = value == null ? "" : text(column, value);
            cells.add(column.form().isText() ? Guard.put(text) : text);
        }
        return cells;
    }

    private String text(Column column, Object value) {
        return value instanceof Instant instant
                ? moments.write(instant)
                : column.form().write(value, names);
    }

    private static @Nullable Object value(Column column, Line line, Map<String, Object> fields) {
        return switch (column.place()) {
            case SOURCE -> line.source();
            case REGISTER -> line.code();
            case PERSON -> line.person();
            case EMPLOYER -> line.employer();
            case SUBJECT -> line.subject();
            case ITEM -> line.item();
            case ENDS -> line.ends();
            case SCOPE -> line.scope();
            case FROM -> line.from();
            case UNTIL -> line.until();
            case CLAIM -> line.toldClaimed();
            case FIELD -> field(column, fields);
        };
    }

    /** A field that is not there is no, where the column asks for yes or no and must be filled. */
    private static @Nullable Object field(Column column, Map<String, Object> fields) {
        Object value = fields.get(column.field());
        return value == null && column.isRequired() && column.form() == Form.YES_NO ? Boolean.FALSE : value;
    }
}
