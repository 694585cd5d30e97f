package org.hoodkeeper.store;

import org.hoodkeeper.facts.Guide;
import org.hoodkeeper.facts.PartClass;
import org.jspecify.annotations.Nullable;

/**
 * One thing to do or look at.
 *
 * @param part the sort of part that it is about; none for the whole set
 * @param words what the model's maker says in addition; none where nothing
 */
public record GuideStep(
        Guide guide,
        String code,
        @Nullable PartClass part,
        @Nullable String words) {

    GuideStep(Guide guide, String code, @Nullable PartClass part) {
        this(guide, code, part, null);
    }

    /** As the model's own words name it. */
    public String key() {
        return guide + "." + code;
    }
}
