package org.hoodkeeper.exchange;

import java.util.List;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/**
 * One column of a file.
 *
 * @param name as the header has it
 * @param need whether each row must fill it
 * @param form how its cells are written
 * @param place where its content goes
 * @param field the fact's own field, where the place is {@link Place#FIELD}
 */
record Column(
        String name,
        Need need,
        Form form,
        Place place,
        @Nullable String field) {

    enum Need {
        REQUIRED,
        OPTIONAL
    }

    enum Place {
        /** The site's own number of the record. */
        SOURCE,
        /** The name under which the thing itself is entered. */
        REGISTER,
        /** A person's name. */
        PERSON,
        EMPLOYER,
        SUBJECT,
        ITEM,
        /** The earlier record of the same kind that this one ends. */
        ENDS,
        SCOPE,
        FROM,
        UNTIL,
        FIELD,
        /** When another system says it was told; kept as a claim. */
        CLAIM
    }

    static Column required(String name, Form form, Place place) {
        return new Column(name, Need.REQUIRED, form, place, null);
    }

    static Column optional(String name, Form form, Place place) {
        return new Column(name, Need.OPTIONAL, form, place, null);
    }

    static Column required(String name, Form form, String field) {
        return new Column(name, Need.REQUIRED, form, Place.FIELD, field);
    }

    static Column optional(String name, Form form, String field) {
        return new Column(name, Need.OPTIONAL, form, Place.FIELD, field);
    }

    /** The one that the refusal's code names by its field; none where it names none of them. */
    static @Nullable Column named(List<Column> columns, Refused refused) {
        List<String> parts = List.of(refused.code().split("\\."));
        return columns.stream()
                .filter(column -> parts.contains(column.field() == null ? column.name() : column.field()))
                .findFirst()
                .orElse(null);
    }

    boolean isRequired() {
        return need == Need.REQUIRED;
    }
}
