package org.hoodkeeper.kernel;

import java.util.UUID;

/** Identifies an account, which may hold roles on several sites. */
public record AccountId(UUID value) implements Id {

    public static AccountId of(String text) {
        return new AccountId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
