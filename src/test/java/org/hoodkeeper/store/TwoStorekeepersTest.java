package org.hoodkeeper.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.evidence.Washes;
import org.hoodkeeper.facts.WashStep;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SetId;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** Two storekeepers do the same at once: one does it, the other is told so. */
@SpringBootTest
@Import({TestPeople.class, StoreStory.class})
class TwoStorekeepersTest {

    private static final int TIMES = 25;

    @Autowired
    StoreStory story;

    @Autowired
    Washes washes;

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    /** Each scans the same basket, from the other end: whoever is second is refused, and neither waits for the other for ever. */
    @Test
    void theSameBasketScannedFromBothEndsIsWashedOnce() throws Exception {
        story.begin("2026-11-20T09:00");
        List<SetId> basket = new ArrayList<>();
        for (int n = 1; n <= 8; n++) {
            basket.add(story.set("S-" + n, "H20", "2026-11-02T09:00").id("S-" + n));
        }
        List<SetId> turned = new ArrayList<>(basket);
        java.util.Collections.reverse(turned);
        ExecutorService two = Executors.newFixedThreadPool(2);
        try {
            for (int time = 0; time < TIMES; time++) {
                CyclicBarrier start = new CyclicBarrier(2);
                List<Future<String>> both = List.of(two.submit(begin(basket, start)), two.submit(begin(turned, start)));
                List<String> came = List.of(both.get(0).get(), both.get(1).get());
                assertThat(came).containsOnlyOnce("wash.sets.busy");
                String batch = came.get(0).equals("wash.sets.busy") ? came.get(1) : came.get(0);
                WashStep off = new WashStep(WashStep.Step.BROKEN_OFF, null, null, null, null);
                story.in(() ->
                        washes.step(story.author(), UUID.fromString(batch), off, story.instant("2026-11-20T09:00")));
            }
        } finally {
            two.shutdownNow();
        }
    }

    private Callable<String> begin(List<SetId> basket, CyclicBarrier start) {
        return () -> {
            start.await();
            try {
                return story.in(() -> washes.begin(story.author(), basket, story.instant("2026-11-20T09:00")))
                        .toString();
            } catch (Refused refused) {
                return refused.code();
            }
        };
    }
}
