package org.hoodkeeper.web.store;

import static org.assertj.core.api.Assertions.assertThat;

import org.hoodkeeper.access.Browser;
import org.hoodkeeper.access.OverHttp;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.store.StoreStory;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.annotation.Import;

/** The evening before: will there be enough ready sets at six? */
@OverHttp
@Import(StoreStory.class)
class ReadyPagesTest {

    @LocalServerPort
    int port;

    @Autowired
    TestPeople people;

    @Autowired
    StoreStory story;

    @BeforeEach
    void aStore() {
        story.fridayAtThree().on("2026-11-20T15:10").flowChecked("S-131", "169", "2026-11-20T15:05");
    }

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    private String page(Role role, String asked) {
        Browser browser = new Browser(port);
        browser.signIn(people.person(story.site(), role).login(), TestPeople.PASSWORD);
        return browser.get("/sites/" + story.site().code() + "/ready" + asked).body();
    }

    @Test
    void theNextSixOClockIsAnsweredInOneSentence() {
        String page = page(Role.STOREKEEPER, "");
        assertThat(page)
                .contains(
                        "<h1>Ready for 21 Nov 2026, 06:00: 1 of 2, short by 1, and unknown for one person without a set.</h1>")
                .contains("value=\"2026-11-21T06:00\"")
                .contains("Short by 1")
                .contains("/sets/S-131\"")
                .contains("time unknown")
                .contains("Max");
    }

    @Test
    void theSupervisorReadsItToo() {
        assertThat(page(Role.SUPERVISOR, ""))
                .contains("1 of 2, short by 1")
                .contains(">S-131</b>")
                .doesNotContain("/sets/S-131\"");
    }

    @Test
    void aTimeThatIsOverIsRefusedAndKept() {
        assertThat(page(Role.STOREKEEPER, "?at=2026-11-20T06:00"))
                .contains("is over. Choose a time from now on.")
                .contains("value=\"2026-11-20T06:00\"");
        assertThat(page(Role.STOREKEEPER, "?at=2026-11-22T14:00"))
                .contains("Ready for 22 Nov 2026, 14:00: 1 of 2")
                .contains("value=\"2026-11-22T14:00\"");
        assertThat(page(Role.STOREKEEPER, "?at=soon"))
                .contains("value=\"soon\"")
                .contains("1 of 2, short by 1");
    }

    @Test
    void theSparePoolSaysThatItIsUnknownAndTakesALevelOfTheList() {
        assertThat(page(Role.STOREKEEPER, ""))
                .contains("Spare pool for 95")
                .contains("unknown: away once, and 5 times are needed");
        assertThat(page(Role.STOREKEEPER, "?level=0.99")).contains("Spare pool for 99");
        assertThat(page(Role.STOREKEEPER, "?level=2"))
                .contains("“2” is no level that can be chosen.")
                .contains("Spare pool for 95");
    }
}
