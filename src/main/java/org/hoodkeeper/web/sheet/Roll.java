package org.hoodkeeper.web.sheet;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * The people of a site as a list shows them: those that were looked for, fifty at a time.
 *
 * @param sought what was typed, stripped; empty for everyone
 * @param upTo how many have been shown by the end of this page
 * @param total how many fit
 * @param nextPage none on the last page
 */
public record Roll(
        List<Person> shown,
        String sought,
        int upTo,
        int total,
        @Nullable Integer nextPage) {

    private static final int ROWS = 50;

    /** @param page from 1 on; anything else is the first */
    static Roll of(List<Person> all, @Nullable String typed, @Nullable Integer page) {
        String sought = typed == null ? "" : typed.strip();
        String part = sought.toLowerCase(Locale.ROOT);
        List<Person> fitting = all.stream()
                .filter(one -> (one.number() + " " + one.name())
                        .toLowerCase(Locale.ROOT)
                        .contains(part))
                .toList();
        int pages = Math.max(1, (fitting.size() + ROWS - 1) / ROWS);
        int at = page == null ? 1 : Math.min(pages, Math.max(1, page));
        int upTo = Math.min(fitting.size(), at * ROWS);
        return new Roll(
                fitting.subList((at - 1) * ROWS, upTo), sought, upTo, fitting.size(), at < pages ? at + 1 : null);
    }

    /** Whether there are more people than one page shows, or something was looked for. */
    public boolean isSearchable() {
        return !sought.isEmpty() || total > ROWS;
    }
}
