package org.hoodkeeper.facts;

import java.time.LocalDate;
import java.util.Collection;
import java.util.Set;
import org.hoodkeeper.kernel.ModelId;
import org.jspecify.annotations.Nullable;

/**
 * A maker, a supplier or the site itself calls sets or parts back. What is given narrows what is meant; what is not on record of a
 * part may be meant. It holds from the record's instant on.
 *
 * @param model none for any model
 * @param place where the part sits, by the model's own name; none for any
 * @param madeFrom first and {@code madeUntil} last day of manufacture, both included; none for open
 * @param swapBy last day on which a set may still be used as it is; only with {@link Remedy#SWAP_BY}
 * @param notice the reference of the notice
 */
public record Recall(
        @Nullable ModelId model,
        @Nullable String place,
        @Nullable String part,
        @Nullable String lot,
        Set<String> serials,
        @Nullable LocalDate madeFrom,
        @Nullable LocalDate madeUntil,
        Remedy remedy,
        @Nullable LocalDate swapBy,
        @Nullable String notice,
        @Nullable String reason)
        implements Fact {

    public enum Remedy {
        /** Nobody wears it any more. */
        STOP_NOW,
        /** It may be worn until the end of a day, by which the part is out. */
        SWAP_BY
    }

    public Recall {
        serials = Ordered.copy((Collection<String>) serials);
    }
}
