package org.hoodkeeper.web.oversight;

import org.jspecify.annotations.Nullable;

/**
 * Which look-backs are listed.
 *
 * @param from first day of the failure; nothing for three months back
 * @param until last such day
 * @param set label of a set that may have had it; nothing for any
 */
public record LookBacksForm(
        @Nullable String from,
        @Nullable String until,
        @Nullable String set,
        @Nullable String page) {

    /** @return the page asked for, the first being 1 */
    int number() {
        return page != null && page.matches("[1-9][0-9]{0,5}") ? Integer.parseInt(page) : 1;
    }
}
