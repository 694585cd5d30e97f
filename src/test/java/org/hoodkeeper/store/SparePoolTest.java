package org.hoodkeeper.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.calculation.stock.Away;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.evidence.Holds;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.kernel.RecordId;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** How many spare sets to keep, from how long the sets were away. Worked out by hand. */
@SpringBootTest
@Import({TestPeople.class, StoreStory.class})
class SparePoolTest {

    @Autowired
    StoreStory story;

    @Autowired
    SparePool pool;

    @Autowired
    Holds holds;

    @Autowired
    Counter counter;

    /** Ten days in the store until the question is asked, on 20 November at 15:00. */
    @BeforeEach
    void aStore() {
        story.begin("2026-11-20T15:00")
                .set("S-001", "H20", "2026-11-10T15:00")
                .set("S-002", "H20", "2026-11-10T15:00")
                .set("S-003", "H40", "2026-11-10T15:00");
    }

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    private void held(String label, String from, String until) {
        RecordId hold = story.held(label, Hold.Why.QUARANTINE, from);
        story.in(() -> holds.release(story.author(), story.id(label), hold, "found good", story.instant(until), null));
    }

    private List<SparePool.Pool> of(double level, String now, ReadyCount.OfSize... sizes) {
        ReadyCount count = new ReadyCount(story.instant(now), List.of(sizes), List.of());
        return story.in(() -> pool.of(story.site().id(), count, level, story.instant(now)));
    }

    private static ReadyCount.OfSize wanted(String model, int wanted) {
        return new ReadyCount.OfSize(model, "M", wanted, wanted, 0, List.of());
    }

    private void fiveSpells() {
        // overlapping: one spell of a day and a half
        held("S-001", "2026-11-11T15:00", "2026-11-12T15:00");
        held("S-001", "2026-11-12T03:00", "2026-11-13T03:00");
        held("S-001", "2026-11-14T15:00", "2026-11-14T21:00");
        held("S-001", "2026-11-15T15:00", "2026-11-15T21:00");
        held("S-002", "2026-11-16T15:00", "2026-11-16T21:00");
        held("S-002", "2026-11-17T15:00", "2026-11-17T21:00");
    }

    /**
     * 2.5 days away of 20: 12.5 %. At least two ready of three: 0.875³ + 3 × 0.875² × 0.125 = 0.957; of two 0.766. Of four 0.993.
     */
    @Test
    void sparesFollowFromTheModelsOwnTimeAway() {
        fiveSpells();
        SparePool.Pool usual = of(0.95, "2026-11-20T15:00", wanted("H20", 2)).get(0);
        assertThat(usual.away()).isEqualTo(new Away(5, Duration.ofHours(60), Duration.ofDays(20)));
        assertThat(usual.percent()).isEqualByComparingTo("12.5");
        assertThat(usual.ofSite()).isFalse();
        assertThat(usual.spares()).isEqualTo(1);
        assertThat(usual.needed()).isEqualTo(3);
        assertThat(usual.isShort()).isTrue();
        assertThat(of(0.99, "2026-11-20T15:00", wanted("H20", 2)).get(0).spares())
                .isEqualTo(2);
        assertThat(of(0.99, "2026-11-20T15:00", wanted("H20", 0))).isEmpty();
    }

    /** H40 was never away: the site's 2.5 of 30 days count for it, 8.4 % rounded up. One of two ready: 1 − 0.0833² = 0.993. */
    @Test
    void aModelThatWasSeldomAwayTakesTheSitesShare() {
        fiveSpells();
        SparePool.Pool seldom = of(0.95, "2026-11-20T15:00", wanted("H40", 1)).get(0);
        assertThat(seldom.ofSite()).isTrue();
        assertThat(seldom.away()).isEqualTo(new Away(5, Duration.ofHours(60), Duration.ofDays(30)));
        assertThat(seldom.percent()).isEqualByComparingTo("8.4");
        assertThat(seldom.spares()).isEqualTo(1);
    }

    @Test
    void withFourSpellsOnTheWholeSiteItIsUnknown() {
        held("S-001", "2026-11-14T15:00", "2026-11-14T21:00");
        held("S-001", "2026-11-15T15:00", "2026-11-15T21:00");
        held("S-002", "2026-11-16T15:00", "2026-11-16T21:00");
        held("S-003", "2026-11-17T15:00", "2026-11-17T21:00");
        SparePool.Pool few = of(0.95, "2026-11-20T15:00", wanted("H20", 2)).get(0);
        assertThat(few.isTooFew()).isTrue();
        assertThat(few.spares()).isNull();
        assertThat(few.needed()).isNull();
        assertThat(few.isShort()).isFalse();
    }

    /** Back worn until washed: a day. Missing: half a day. Withdrawn after 17 days; the other set 20 days. */
    @Test
    void fromReturnToWashAndWhileMissingASetIsAwayAndAfterItsWithdrawalItIsNoneOfThePool() {
        story.worker("Kay", "H20").upToDate("S-001", "2026-11-20T14:00");
        story.issue("S-001", "Kay");
        story.on("2026-11-30T15:00");
        story.takeBack("S-001", true, "2026-11-21T15:00");
        story.disinfected("S-001", "2026-11-22T15:00");
        story.in(() -> counter.missing(story.author(), story.id("S-001"), null, story.instant("2026-11-23T15:00")));
        story.in(() -> counter.found(story.author(), story.id("S-001"), null, story.instant("2026-11-24T03:00")));
        story.held("S-001", Hold.Why.WITHDRAWN, "2026-11-27T15:00");
        SparePool.Pool own = of(0.95, "2026-11-30T15:00", wanted("H20", 1)).get(0);
        assertThat(own.away().spells()).isEqualTo(2);
        // the site's, with twenty days of S-003 too
        assertThat(own.away()).isEqualTo(new Away(2, Duration.ofHours(36), Duration.ofDays(57)));
    }
}
