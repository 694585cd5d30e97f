package org.hoodkeeper.kernel;

import java.util.UUID;

/** Identifies one record in a site's ledger. */
public record RecordId(UUID value) implements Id {

    public static RecordId of(String text) {
        return new RecordId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
