package org.hoodkeeper.facts;

import org.jspecify.annotations.Nullable;

/**
 * How a model's step differs from the usual one, from the maker's instructions: the scope names guide and step, for instance
 * {@code INSPECTION.VISOR}.
 *
 * @param use whether the step is done at all
 * @param words what the maker says in addition, shown with the step
 */
public record GuideStepWords(Use use, @Nullable String words) implements Fact {

    public enum Use {
        AS_USUAL,
        WITH_WORDS,
        /** The model has no such part, or its maker asks for no such step. */
        LEFT_OUT
    }
}
