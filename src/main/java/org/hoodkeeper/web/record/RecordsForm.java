package org.hoodkeeper.web.record;

import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.ledger.History;
import org.jspecify.annotations.Nullable;

/**
 * Which records are listed. The address is the whole search.
 *
 * @param kind nothing for every kind that the reader may open
 * @param only {@code late} or {@code replaced}; nothing for all
 * @param about part of a person's name or number, a set's label, a task's code; nothing for whatever they are about
 * @param from first day on which they were true; nothing for three months back, or for ever where {@code about} is given
 * @param until last such day; nothing for no end
 */
public record RecordsForm(
        @Nullable String kind,
        @Nullable String only,
        @Nullable String about,
        @Nullable String from,
        @Nullable String until,
        @Nullable String page) {

    boolean isOf(Kind one) {
        return kind == null || kind.isBlank() || one.name().equals(kind);
    }

    boolean isLate() {
        return "late".equals(only);
    }

    History.Only of() {
        return isLate() ? History.Only.AFTERWARDS : "replaced".equals(only) ? History.Only.REPLACED : History.Only.ALL;
    }

    /** @return the page asked for, the first being 1 */
    int number() {
        return page != null && page.matches("[1-9][0-9]{0,5}") ? Integer.parseInt(page) : 1;
    }
}
