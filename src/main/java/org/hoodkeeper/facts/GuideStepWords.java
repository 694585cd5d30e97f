package org.hoodkeeper.facts;

import org.jspecify.annotations.Nullable;

/**
 * How a model's step differs from the usual one, or a step of the model's own, as the safety officer decided from the maker's
 * instructions: the scope names guide and step, for instance {@code INSPECTION.VISOR}, or {@code INSPECTION.OWN.1}.
 *
 * @param use whether the step is done at all
 * @param words what is done in addition or otherwise, shown with the step as it was typed; of a step of its own all there is
 * @param reason why it differs, for instance which instruction says so
 * @param after guide and step that a step of its own follows; none where it comes first, and for every other step
 */
public record GuideStepWords(
        Use use,
        @Nullable String words,
        @Nullable String reason,
        @Nullable String after) implements Fact {

    /** What the scope of a step of a model's own holds before its number. */
    public static final String OWN = ".OWN.";

    /** @param step guide and step */
    public static boolean isOwn(String step) {
        return step.contains(OWN);
    }

    public enum Use {
        AS_USUAL,
        WITH_WORDS,
        /** A step of the model's own. */
        ADDED,
        /** The model has no such part, or its maker asks for no such step. */
        LEFT_OUT
    }
}
