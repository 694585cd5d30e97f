package org.hoodkeeper.kernel;

import java.util.UUID;

/** Identifies a worker, on one site. */
public record WorkerId(UUID value) implements Id {

    public static WorkerId of(String text) {
        return new WorkerId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
