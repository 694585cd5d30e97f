package org.hoodkeeper.web.store;

import org.hoodkeeper.store.PartHistory;
import org.jspecify.annotations.Nullable;

/** Which part is looked for: any of its marks. */
public record WhereForm(
        @Nullable String part,
        @Nullable String lot,
        @Nullable String serial) {

    PartHistory.Mark mark() {
        return new PartHistory.Mark(mark(part), mark(lot), mark(serial));
    }

    private static @Nullable String mark(@Nullable String typed) {
        return typed == null || typed.isBlank() ? null : typed.strip();
    }
}
