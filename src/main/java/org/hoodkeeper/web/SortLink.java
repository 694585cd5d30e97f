package org.hoodkeeper.web;

import org.jspecify.annotations.Nullable;
import org.springframework.web.util.UriComponentsBuilder;

/**
 * Heads one column by which a table can be sorted; the order stands in the address, so that it can be sent on.
 *
 * @param key message key of the column's words
 * @param state NONE, ASCENDING or DESCENDING: how the table is sorted by this column now
 */
public record SortLink(String href, String key, State state) {

    /** How a table is sorted by one column. */
    public enum State {
        NONE,
        ASCENDING,
        DESCENDING
    }

    /** The word of the {@code aria-sort} attribute. */
    public String ariaSort() {
        return state.name().toLowerCase(java.util.Locale.ROOT);
    }

    /**
     * @param query the query of the page shown, its other fields are kept and its page number dropped
     * @param column the column's name in the address
     * @param sorted what the address asks for now: a column's name, with a leading minus for descending
     */
    public static SortLink of(@Nullable String query, String column, String key, @Nullable String sorted) {
        State state =
                column.equals(sorted) ? State.ASCENDING : ("-" + column).equals(sorted) ? State.DESCENDING : State.NONE;
        String next = state == State.ASCENDING ? "-" + column : column;
        String href = UriComponentsBuilder.newInstance()
                .query(query == null ? "" : query)
                .replaceQueryParam("sort", next)
                .replaceQueryParam("page")
                .build()
                .toUriString();
        return new SortLink(href, key, state);
    }
}
