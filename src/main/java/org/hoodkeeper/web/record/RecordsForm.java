package org.hoodkeeper.web.record;

import org.hoodkeeper.facts.Kind;
import org.jspecify.annotations.Nullable;

/**
 * Which records are listed.
 *
 * @param kind nothing for every kind that the reader may open
 * @param only {@code late} or {@code replaced}; nothing for all
 */
record RecordsForm(@Nullable String kind, @Nullable String only) {

    boolean isOf(Kind one) {
        return kind == null || kind.isBlank() || one.name().equals(kind);
    }

    boolean isLate() {
        return "late".equals(only);
    }

    boolean isReplaced() {
        return "replaced".equals(only);
    }
}
