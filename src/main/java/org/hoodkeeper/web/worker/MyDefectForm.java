package org.hoodkeeper.web.worker;

import jakarta.validation.constraints.Size;
import org.jspecify.annotations.Nullable;

/**
 * Something is wrong with the set in hand.
 *
 * @param part the place concerned
 */
public record MyDefectForm(
        @Nullable String part, @Size(max = 2000) @Nullable String note) {}
