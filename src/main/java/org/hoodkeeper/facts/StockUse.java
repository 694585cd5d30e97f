package org.hoodkeeper.facts;

import org.jspecify.annotations.Nullable;

/**
 * Taken from what the store keeps; the scope is the thing's code, the item the set into which it went, where it went into one.
 *
 * @param lot none for pieces without one
 * @param pieces 1 to 100,000
 */
public record StockUse(@Nullable String lot, int pieces, Use use) implements Fact {

    public enum Use {
        /** Into a set. */
        FITTED,
        /** Used up or given out. */
        USED,
        /** Thrown away: over its day, or damaged. No demand. */
        DISCARDED
    }
}
