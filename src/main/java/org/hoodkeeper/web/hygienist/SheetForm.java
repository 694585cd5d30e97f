package org.hoodkeeper.web.hygienist;

import org.hoodkeeper.web.MomentForm;
import org.jspecify.annotations.Nullable;

/** The moment that a sheet shows. */
public record SheetForm(@Nullable String at, @Nullable String known) {

    MomentForm moment() {
        return new MomentForm(at, known);
    }
}
