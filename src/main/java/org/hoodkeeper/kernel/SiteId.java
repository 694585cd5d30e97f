package org.hoodkeeper.kernel;

import java.util.UUID;

/** Identifies a site. */
public record SiteId(UUID value) implements Id {

    public static SiteId of(String text) {
        return new SiteId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
