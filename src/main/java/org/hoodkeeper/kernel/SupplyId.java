package org.hoodkeeper.kernel;

import java.util.UUID;

/** Identifies a breathing-air supply of one site. */
public record SupplyId(UUID value) implements Id {

    public static SupplyId of(String text) {
        return new SupplyId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
