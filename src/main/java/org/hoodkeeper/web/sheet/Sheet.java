package org.hoodkeeper.web.sheet;

import java.util.List;
import java.util.function.Supplier;
import org.hoodkeeper.kernel.Id;

/**
 * What a form does once its shape is right.
 *
 * @param name the form's name: the first part of its message keys, and what a form key counts for
 * @param view the page with its fields
 * @param record records it; on the page to look answers over it is tried and taken back
 * @param follows what follows from the answers, shown under them
 * @param turns what the record does, in sentences: asked while it is tried, so that it is judged with the record in place
 */
public record Sheet(
        String name,
        String view,
        Supplier<? extends Id> record,
        Supplier<List<Line>> follows,
        Supplier<List<String>> turns) {

    public Sheet(String name, String view, Supplier<? extends Id> record, Supplier<List<Line>> follows) {
        this(name, view, record, follows, List::of);
    }

    public Sheet(String name, String view, Supplier<? extends Id> record) {
        this(name, view, record, List::of);
    }
}
