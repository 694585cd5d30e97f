package org.hoodkeeper.web.store;

import static org.assertj.core.api.Assertions.assertThat;

import org.hoodkeeper.access.Browser;
import org.hoodkeeper.access.OverHttp;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.evidence.Defects;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.store.StoreStory;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.annotation.Import;

/** The life of parts, over real HTTP and without script. */
@OverHttp
@Import(StoreStory.class)
class LifePagesTest {

    @LocalServerPort
    int port;

    @Autowired
    TestPeople people;

    @Autowired
    StoreStory story;

    @Autowired
    Defects defects;

    private String at;
    private Browser store;

    @BeforeEach
    void visors() {
        story.begin("2026-11-25T18:00").worker("Kay", "H30");
        at = "/sites/" + story.site().code();
        store = new Browser(port);
        store.signIn(people.person(story.site(), Role.STOREKEEPER).login(), TestPeople.PASSWORD);
    }

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    private void visor(String label, String fault) {
        story.set(label, "H30", "2026-05-01T09:00");
        story.fitted(label, "visor", "V-20", "V-7", "2026-06-01T08:00");
        story.wore("Kay", label, "2026-06-02T08:00", "2026-06-02T09:00");
        if (fault != null) {
            story.in(() ->
                    defects.found(story.author(), story.id(label), "visor", "cracked", story.instant(fault), null));
        }
    }

    @Test
    void itAsksForAPlaceAndSaysWhenThereIsTooLittle() {
        assertThat(store.get(at + "/parts/life").body()).contains("Of which place do you want to know");
        visor("S-1", "2026-07-01T08:00");
        assertThat(store.get(at + "/parts/life?place=visor").body())
                .contains("Too few failures to say how long parts at visor last.")
                .contains("Failed: 1. Still good, or changed while good: 0.")
                .contains("<svg")
                .doesNotContain("B10")
                .doesNotContain("??");
        assertThat(store.get(at + "/parts/life?place=hose").body()).contains("No part of that sort was fitted");
    }

    @Test
    void whenThereIsEnoughItAdvisesAndDraws() {
        visor("S-1", "2026-07-10T08:00");
        visor("S-2", "2026-07-11T08:00");
        visor("S-3", "2026-07-12T08:00");
        visor("S-4", "2026-07-13T08:00");
        assertThat(store.get(at + "/parts/life?place=visor&lot=V-7&unit=DAYS").body())
                .contains("Parts at visor wear out: change them at ")
                .contains("B10")
                .contains("By lot, most failures first")
                .doesNotContain("??");
    }

    @Test
    void theTreeSaysTheAgeOfEachPart() {
        visor("S-1", null);
        assertThat(store.get(at + "/sets/S-1/parts").body())
                .contains("no limit")
                .contains("not on record")
                .doesNotContain("??");
    }
}
