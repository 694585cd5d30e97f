package org.hoodkeeper.web.store;

import org.jspecify.annotations.Nullable;

/**
 * One answer as the check page shows it.
 *
 * @param key message key of the question
 * @param value the answer in the reader's words
 * @param tone clear, half or barred where the answer decides whether the set may be used; else none
 */
public record Line(String key, String value, @Nullable String tone) {}
