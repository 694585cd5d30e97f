package org.hoodkeeper.web.store;

import org.hoodkeeper.store.PartLives;
import org.jspecify.annotations.Nullable;

/** Whose life is asked for. @param unit {@code DAYS}; anything else counts wears */
public record LifeForm(
        @Nullable String place,
        @Nullable String part,
        @Nullable String lot,
        @Nullable String unit) {

    PartLives.Unit counted() {
        return "DAYS".equals(unit) ? PartLives.Unit.DAYS : PartLives.Unit.WEARS;
    }

    static @Nullable String given(@Nullable String typed) {
        return typed == null || typed.isBlank() ? null : typed.strip();
    }
}
