package org.hoodkeeper.web;

/**
 * One line of the summary over a form that was not accepted.
 *
 * @param field the field's name, which is also the id of its first control; empty when the whole form is meant
 */
public record PageError(String field, String message) {}
