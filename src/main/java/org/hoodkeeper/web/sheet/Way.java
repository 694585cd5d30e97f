package org.hoodkeeper.web.sheet;

import java.util.List;
import java.util.function.Function;
import java.util.function.Supplier;
import org.hoodkeeper.kernel.Id;

/**
 * The way a form goes: pages, answers, record, and where to.
 *
 * @param name the form's name: the first part of its message keys, and what a form key counts for
 * @param view the page with its fields
 * @param check the page to look the answers over
 * @param lines the answers and what follows from them, as that page reads them
 * @param record records it; before the answers are shown it is tried and taken back
 * @param turns what the record does, in sentences: asked while it is tried, with the record in place
 * @param onward the address that says what happened, by what was recorded
 */
public record Way(
        String name,
        String view,
        String check,
        Supplier<? extends List<?>> lines,
        Supplier<? extends Id> record,
        Supplier<List<String>> turns,
        Function<String, String> onward) {

    public Way(
            String name,
            String view,
            String check,
            Supplier<? extends List<?>> lines,
            Supplier<? extends Id> record,
            Function<String, String> onward) {
        this(name, view, check, lines, record, List::of, onward);
    }
}
