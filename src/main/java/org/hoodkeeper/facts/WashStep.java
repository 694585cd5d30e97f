package org.hoodkeeper.facts;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * A step of a wash that several sets go through together; the scope is the batch. Each set is stripped by a record of its own
 * that names it; the other steps are of the whole batch. The order is that of 29 CFR 1910.134, appendix B-2: taken apart,
 * washed, disinfected wet, rinsed, dried.
 *
 * @param step what was done
 * @param celsius water of the wash
 * @param product the disinfectant's code, of the step that wets
 * @param strength its strength as mixed, in {@code strengthBasis}
 */
public record WashStep(
        Step step,
        @Nullable BigDecimal celsius,
        @Nullable String product,
        @Nullable BigDecimal strength,
        @Nullable String strengthBasis)
        implements Fact {

    public enum Step {
        /** Filter, battery and blower out, ports closed, looked over as stripped. */
        STRIPPED,
        WASHED,
        /** The surface is wet with the disinfectant: its time runs from here. */
        WETTED,
        /** It dried before its time: the contact begins anew with the next wetting. */
        DRIED_OUT,
        RINSED,
        /** Dry inside and out. The cleaning counts from here. */
        DRY,
        /** Broken off: nothing of it counts. */
        BROKEN_OFF;

        /** Whether the batch is over with it. */
        public boolean isEnd() {
            return this == DRY || this == BROKEN_OFF;
        }
    }
}
