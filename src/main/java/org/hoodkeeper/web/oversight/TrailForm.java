package org.hoodkeeper.web.oversight;

import org.hoodkeeper.oversight.TrailSort;
import org.jspecify.annotations.Nullable;

/**
 * What is looked for in the audit trail. The address is the whole search.
 *
 * @param who part of the name or sign-in name of whoever did it
 * @param sort nothing for every sort
 * @param about part of a person's name or number, a set's label, a task's code, an account's name, or an id
 * @param from first day; nothing for a month back
 * @param until last day; nothing for today
 * @param text part of the words, of a code or of an address of the net
 */
public record TrailForm(
        @Nullable String who,
        @Nullable String sort,
        @Nullable String about,
        @Nullable String from,
        @Nullable String until,
        @Nullable String text,
        @Nullable String page) {

    /** @return the page asked for, the first being 1 */
    int number() {
        return page != null && page.matches("[1-9][0-9]{0,5}") ? Integer.parseInt(page) : 1;
    }

    boolean isOf(TrailSort one) {
        return one.name().equals(sort);
    }

    static @Nullable String typed(@Nullable String text) {
        return text == null || text.isBlank() ? null : text.strip().replace("\u0000", "");
    }
}
