package org.hoodkeeper.kernel;

import java.util.UUID;

/** Identifies a measuring instrument of one site. */
public record InstrumentId(UUID value) implements Id {

    public static InstrumentId of(String text) {
        return new InstrumentId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
