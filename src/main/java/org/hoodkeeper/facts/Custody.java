package org.hoodkeeper.facts;

import org.jspecify.annotations.Nullable;

/**
 * A claim about who has a set. Claims may contradict; the periods are derived from them.
 *
 * @param claim what is claimed; for {@link Claim#ISSUED} the worker is the item
 * @param worn at return: whether it was worn while issued; unknown counts as worn
 */
public record Custody(
        Claim claim, @Nullable Boolean worn, @Nullable String note) implements Fact {

    public enum Claim {
        /** Into the store for the first time, accepted. */
        RECEIVED,
        ISSUED,
        RETURNED,
        MISSING,
        FOUND
    }
}
