package org.hoodkeeper.access;

import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.springframework.security.authentication.AuthenticationServiceException;
import org.springframework.security.crypto.password.PasswordEncoder;

/**
 * Lets two passwords be hashed at a time, in the order they came. A shift's start, or somebody guessing, must not take
 * both cores away from checks at the gate.
 */
class HashingLane implements PasswordEncoder {

    private static final int AT_A_TIME = 2;
    private static final int LONGEST_WAIT_SECONDS = 20;

    private final PasswordEncoder encoder;
    private final Semaphore places = new Semaphore(AT_A_TIME, true);

    HashingLane(PasswordEncoder encoder) {
        this.encoder = encoder;
    }

    @Override
    public @Nullable String encode(@Nullable CharSequence password) {
        return inTurn(() -> encoder.encode(password));
    }

    @Override
    public boolean matches(@Nullable CharSequence password, @Nullable String encoded) {
        return inTurn(() -> encoder.matches(password, encoded));
    }

    /** Reads the method in front only, without hashing. */
    @Override
    public boolean upgradeEncoding(@Nullable String encoded) {
        return encoder.upgradeEncoding(encoded);
    }

    private <T extends @Nullable Object> T inTurn(Supplier<T> work) {
        try {
            if (!places.tryAcquire(LONGEST_WAIT_SECONDS, TimeUnit.SECONDS)) {
                throw new AuthenticationServiceException("too many people sign in at this moment");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new AuthenticationServiceException("interrupted while waiting to check a password", e);
        }
        try {
            return work.get();
        } finally {
            places.release();
        }
    }
}
