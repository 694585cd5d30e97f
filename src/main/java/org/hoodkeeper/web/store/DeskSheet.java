package org.hoodkeeper.web.store;

import java.util.List;
import java.util.function.Supplier;
import org.hoodkeeper.kernel.Id;

/**
 * What a form does once its shape is right.
 *
 * @param name the form's name: first part of its message keys, and what a form key counts for
 * @param view the page with its fields
 * @param check its answers and what follows from them, with nothing recorded
 * @param record records it, and gives the id of what it recorded
 * @param onward the page that says what happened
 */
public record DeskSheet(
        String name, String view, Supplier<List<Line>> check, Supplier<? extends Id> record, String onward) {}
