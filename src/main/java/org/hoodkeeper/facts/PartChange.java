package org.hoodkeeper.facts;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * A part was fitted in a slot of a set, the scope; what sat there before is out.
 *
 * @param part the part's code, looked up in the model's approved configuration
 * @param lot its lot; none where not recorded, which counts as in for a recall
 * @param madeOn manufacture date; none where unknown
 * @param fitterTrained whether a trained person fitted it
 */
public record PartChange(
        String part,
        @Nullable String lot,
        @Nullable String serial,
        @Nullable LocalDate madeOn,
        boolean fitterTrained,
        @Nullable String fitter)
        implements Fact {}
