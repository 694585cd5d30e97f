package org.hoodkeeper.kernel;

import java.util.UUID;

/** Identifies a model of interface that a site holds. */
public record ModelId(UUID value) implements Id {

    public static ModelId of(String text) {
        return new ModelId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
