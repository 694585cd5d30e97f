package org.hoodkeeper.facts;

import org.jspecify.annotations.Nullable;

/**
 * How a model's step differs from the usual one, as the safety officer decided from the maker's instructions: the scope names guide and step, for instance
 * {@code INSPECTION.VISOR}.
 *
 * @param use whether the step is done at all
 * @param words what is done in addition or otherwise, shown with the step as it was typed
 * @param reason why it differs, for instance which instruction says so
 */
public record GuideStepWords(
        Use use, @Nullable String words, @Nullable String reason) implements Fact {

    public enum Use {
        AS_USUAL,
        WITH_WORDS,
        /** The model has no such part, or its maker asks for no such step. */
        LEFT_OUT
    }
}
