package org.hoodkeeper.facts;

import org.jspecify.annotations.Nullable;

/**
 * Something is wrong with a set.
 *
 * @param step found, or mended, which names the defect as its item
 * @param part the slot concerned
 */
public record Defect(
        Step step, @Nullable String part, @Nullable String note) implements Fact {

    public enum Step {
        FOUND,
        MENDED
    }
}
