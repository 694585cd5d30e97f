package org.hoodkeeper.kernel;

import java.util.UUID;

/** Identifies a set, the thing worn, hood or mask, on one site. */
public record SetId(UUID value) implements Id {

    public static SetId of(String text) {
        return new SetId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
