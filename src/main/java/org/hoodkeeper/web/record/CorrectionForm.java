package org.hoodkeeper.web.record;

import jakarta.validation.constraints.Size;
import org.jspecify.annotations.Nullable;

/**
 * Why a record is stated anew.
 *
 * @param aim asked only for what holds from a time on
 */
public record CorrectionForm(
        @Nullable Aim aim, @Size(max = 2_000) @Nullable String because) {

    enum Aim {
        /** It was wrong from the start: the past is judged anew. */
        CORRECTION,
        /** It was right, and something else holds from a later time on: the past stays. */
        CHANGE
    }

    boolean isChange() {
        return aim == Aim.CHANGE;
    }
}
