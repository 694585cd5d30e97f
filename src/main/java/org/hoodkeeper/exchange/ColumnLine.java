package org.hoodkeeper.exchange;

import java.util.List;

/**
 * A column as it is explained to a person.
 *
 * @param formKey message key of how its cells are written
 * @param choices the words a cell may hold, where it may hold no others
 * @param meaningKeys message keys of what it means: the first that has words counts
 */
public record ColumnLine(
        String name, boolean isRequired, String formKey, List<String> choices, List<String> meaningKeys) {

    static ColumnLine of(FileKind kind, Column column) {
        return new ColumnLine(
                column.name(),
                column.isRequired(),
                "exchange.form." + column.form().code(),
                column.form().choices(),
                List.of("exchange.column." + kind.slug() + "." + column.name(), "exchange.column." + column.name()));
    }
}
