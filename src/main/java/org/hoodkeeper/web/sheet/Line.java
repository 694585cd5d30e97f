package org.hoodkeeper.web.sheet;

/**
 * One answer as the page to look them over shows it.
 *
 * @param key message key of the question
 * @param value the answer in the reader's words
 */
public record Line(String key, String value) {}
