package org.hoodkeeper.kit;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.OnceOnly;
import org.hoodkeeper.programme.Site;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** Several people enter the same label at once: one is first, and each of the others reads that it is taken. */
@SpringBootTest
@Import(TestPeople.class)
class SameMomentTest {

    private static final int AT_ONCE = 6;

    @Autowired
    TestPeople people;

    @Autowired
    OnceOnly onceOnly;

    @Autowired
    Kit kit;

    @Test
    void aLabelEnteredSixTimesAtOnceIsThereOnce() throws Exception {
        Site site = people.site();
        Viewer keeper = people.viewer(site, people.person(site, Role.STOREKEEPER));
        SetData data = new SetData(new ModelId(UUID.randomUUID()), "M", "R1", null, false, "North store", "SN-1");
        ExecutorService pool = Executors.newFixedThreadPool(AT_ONCE);
        CyclicBarrier start = new CyclicBarrier(AT_ONCE);
        List<Future<String>> answers = new ArrayList<>();
        for (int i = 0; i < AT_ONCE; i++) {
            answers.add(pool.submit(() -> {
                start.await();
                return SiteBinding.in(site.id(), () -> enter(keeper, data));
            }));
        }
        List<String> met = new ArrayList<>();
        for (Future<String> answer : answers) {
            met.add(answer.get());
        }
        pool.shutdown();
        assertThat(met)
                .containsExactlyInAnyOrder(
                        "entered",
                        "set.label.taken",
                        "set.label.taken",
                        "set.label.taken",
                        "set.label.taken",
                        "set.label.taken");
        assertThat(SiteBinding.in(site.id(), () -> kit.sets(site.id()))).hasSize(1);
    }

    private String enter(Viewer keeper, SetData data) {
        try {
            onceOnly.once(
                    keeper,
                    "newSet",
                    UUID.randomUUID().toString(),
                    List.of("K-1"),
                    () -> kit.addSet(Author.at(keeper), "K-1", data, Instant.parse("2026-01-05T08:00:00Z"))
                            .toString());
            return "entered";
        } catch (Refused taken) {
            return taken.code();
        }
    }
}
