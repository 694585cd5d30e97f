package org.hoodkeeper.store;

import org.hoodkeeper.facts.Guide;
import org.hoodkeeper.facts.GuideStepWords;
import org.hoodkeeper.facts.PartClass;
import org.jspecify.annotations.Nullable;

/**
 * One thing to do or look at.
 *
 * @param part the sort of part that it is about; none for the whole set
 * @param words what the model's maker says in addition, or the whole step where it is the model's own; none where nothing
 */
public record GuideStep(
        Guide guide,
        String code,
        @Nullable PartClass part,
        @Nullable String words) {

    GuideStep(Guide guide, String code, @Nullable PartClass part) {
        this(guide, code, part, null);
    }

    /** Whether it is a step of the model's own: then the words are all there is. */
    public boolean isOwn() {
        return GuideStepWords.isOwn(key());
    }

    /** As the model's own words name it. */
    public String key() {
        return guide + "." + code;
    }
}
