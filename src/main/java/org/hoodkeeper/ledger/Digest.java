package org.hoodkeeper.ledger;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;

/**
 * SHA-256 over named fields. Each field is written as name, length and value, so that no two lists of fields give the same
 * bytes; an absent field is left out; instants are microseconds since 1970, which is what the database keeps.
 */
public final class Digest {

    private final MessageDigest sha256;

    /** @param form names what is hashed and in which version of its form, for instance {@code record 1} */
    public Digest(String form) {
        try {
            sha256 = MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException missing) {
            throw new IllegalStateException("every Java runtime has SHA-256", missing);
        }
        field("form", form);
    }

    public Digest field(String name, @Nullable Object value) {
        return value == null ? this : bytes(name, String.valueOf(value).getBytes(StandardCharsets.UTF_8));
    }

    public Digest field(String name, @Nullable Instant value) {
        return value == null ? this : field(name, (Object) ChronoUnit.MICROS.between(Instant.EPOCH, value));
    }

    public Digest bytes(String name, byte @Nullable [] value) {
        if (value != null) {
            sha256.update((name + ':' + value.length + '=').getBytes(StandardCharsets.UTF_8));
            sha256.update(value);
        }
        return this;
    }

    public byte[] value() {
        return sha256.digest();
    }
}
