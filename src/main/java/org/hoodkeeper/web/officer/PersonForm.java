package org.hoodkeeper.web.officer;

import org.hoodkeeper.web.MomentForm;
import org.jspecify.annotations.Nullable;

/**
 * What of a person's file is asked for.
 *
 * @param task code of the task whose reasons are shown in full; nothing means the first
 */
public record PersonForm(
        @Nullable String at,
        @Nullable String known,
        @Nullable String task) {

    MomentForm moment() {
        return new MomentForm(at, known);
    }
}
