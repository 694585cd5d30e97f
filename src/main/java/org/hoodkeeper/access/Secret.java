package org.hoodkeeper.access;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.util.Base64;

/** Secrets that a machine makes: 256 random bits as text. Only their SHA-256 is ever stored. */
final class Secret {

    private static final SecureRandom RANDOM = new SecureRandom();
    private static final int BYTES = 32;

    private Secret() {}

    static String make() {
        byte[] bytes = new byte[BYTES];
        RANDOM.nextBytes(bytes);
        return Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
    }

    /** No salt and no slow method: 256 random bits cannot be guessed. */
    static byte[] hash(String text) {
        try {
            return MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }
}
