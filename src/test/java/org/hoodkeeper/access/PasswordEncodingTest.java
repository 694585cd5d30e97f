package org.hoodkeeper.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.springframework.security.crypto.password.PasswordEncoder;

class PasswordEncodingTest {

    private final PasswordEncoder encoder = new PasswordEncoding().passwordEncoder();

    /** OWASP password storage cheat sheet: argon2id with 19 MiB, two passes, one lane. */
    @Test
    void theMethodAndItsCostStandInFront() {
        assertThat(encoder.encode("three quiet herons")).startsWith("{argon2id}$argon2id$v=19$m=19456,t=2,p=1$");
    }

    @Test
    void sixtyFourLettersOfTwoBytesAreTakenWhole() {
        String encoded = encoder.encode("é".repeat(64));
        assertThat(encoder.matches("é".repeat(64), encoded)).isTrue();
        assertThat(encoder.matches("é".repeat(63) + "e", encoded)).isFalse();
    }

    @Test
    void twoAtATimeAreHashed() throws Exception {
        AtomicInteger inside = new AtomicInteger();
        AtomicInteger most = new AtomicInteger();
        CountDownLatch begin = new CountDownLatch(1);
        HashingLane lane = new HashingLane(new PasswordEncoder() {
            @Override
            public String encode(CharSequence password) {
                most.accumulateAndGet(inside.incrementAndGet(), Math::max);
                try {
                    Thread.sleep(20);
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                }
                inside.decrementAndGet();
                return "x";
            }

            @Override
            public boolean matches(CharSequence password, String encoded) {
                return false;
            }
        });
        ExecutorService threads = Executors.newFixedThreadPool(10);
        List<Future<?>> all = new ArrayList<>();
        for (int i = 0; i < 10; i++) {
            all.add(threads.submit(() -> {
                begin.await();
                return lane.encode("x");
            }));
        }
        begin.countDown();
        for (Future<?> one : all) {
            one.get(10, TimeUnit.SECONDS);
        }
        threads.shutdown();
        assertThat(most).hasValue(2);
    }
}
