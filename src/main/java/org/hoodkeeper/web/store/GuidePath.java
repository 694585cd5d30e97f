package org.hoodkeeper.web.store;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.hoodkeeper.facts.Guide;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.PartClass;
import org.jspecify.annotations.Nullable;

/** A guide as one word of an address: {@code inspection}, {@code change-edge-seal}. */
public record GuidePath(Guide guide, @Nullable PartClass changed) {

    private static final String CHANGE = "change-";

    /** None for a word that names no guide. */
    static @Nullable GuidePath of(String path) {
        for (Guide guide : Guide.values()) {
            if (guide != Guide.CHANGE && path.equals(guide.name().toLowerCase(Locale.ROOT))) {
                return new GuidePath(guide, null);
            }
        }
        for (PartClass part : PartClass.CHANGED_HERE) {
            if (path.equals(CHANGE + part.slot())) {
                return new GuidePath(Guide.CHANGE, part);
            }
        }
        return null;
    }

    /** The guides that a model's sets can have: parts are changed where the model names their place. */
    static List<GuidePath> of(ModelData model) {
        List<GuidePath> paths = new ArrayList<>();
        for (Guide guide : Guide.values()) {
            boolean fits = guide != Guide.CHANGE
                    && (guide != Guide.FLOW || model.type().hasFlow());
            if (fits) {
                paths.add(new GuidePath(guide, null));
            }
        }
        PartClass.of(model).stream()
                .filter(PartClass.CHANGED_HERE::contains)
                .filter(part -> model.slots().isEmpty() || slot(model, part) != null)
                .forEach(part -> paths.add(new GuidePath(Guide.CHANGE, part)));
        return paths;
    }

    public String path() {
        return changed == null ? guide.name().toLowerCase(Locale.ROOT) : CHANGE + changed.slot();
    }

    /** The model's own name for the place of a part; none where it names none. */
    static @Nullable String slot(ModelData model, PartClass part) {
        return model.slots().stream()
                .map(ModelData.Slot::name)
                .filter(part::isNamed)
                .findFirst()
                .orElse(null);
    }
}
