package org.hoodkeeper.web.store;

/**
 * One answer as the check page shows it.
 *
 * @param key message key of the question
 * @param value the answer in the reader's words
 */
record Line(String key, String value) {}
