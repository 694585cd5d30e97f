package org.hoodkeeper.kernel;

import java.util.UUID;

/** Identifies a task of one site. */
public record TaskId(UUID value) implements Id {

    public static TaskId of(String text) {
        return new TaskId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
