package org.hoodkeeper.web;

import org.jspecify.annotations.Nullable;

/**
 * One line of the summary over a form that was not accepted.
 *
 * @param field the field's name, which is also the id of its first control; empty when the whole form is meant
 * @param label the field's words on the page, null when no message {@code <form>.<field>} exists
 * @param message what, why and how, the same words as beside the field
 */
public record PageError(String field, @Nullable String label, String message) {}
