package org.hoodkeeper.web.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
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

/** What a set is made of and was made of, and where a lot went. */
@OverHttp
@Import(StoreStory.class)
class PartsControllerTest {

    @LocalServerPort
    int port;

    @Autowired
    TestPeople people;

    @Autowired
    StoreStory story;

    private Browser storekeeper;
    private String at;

    @BeforeEach
    void aSetWhoseHoseWasChanged() {
        story.begin("2026-10-05T08:00")
                .worker("Kay", "H30")
                .set("S-122", "H30", "2026-05-01T09:00")
                .set("S-123", "H30", "2026-05-01T09:00");
        story.fitted("S-122", "hose", "HZ-7", "H-2409B", "2026-06-12T10:00");
        story.fitted("S-123", "hose", "HZ-7", "H-2409B", "2026-06-13T10:00");
        story.wore("Kay", "S-122", "2026-10-02T07:00", "2026-10-02T11:00");
        story.fitted("S-122", "hose", "HZ-7", "H-2505A", "2026-10-03T15:00");
        story.wore("Kay", "S-122", "2026-10-04T07:00", "2026-10-04T11:00");
        at = "/sites/" + story.site().code();
        storekeeper = new Browser(port);
        storekeeper.signIn(people.person(story.site(), Role.STOREKEEPER).login(), TestPeople.PASSWORD);
    }

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    private String page(String path) {
        HttpResponse<String> answer = storekeeper.get(at + path);
        assertThat(answer.statusCode()).as(path).isEqualTo(200);
        return answer.body();
    }

    @Test
    void whatIsInNowStandsBeforeWhatSatThereBefore() {
        String page = page("/sets/S-122/parts");
        assertThat(page)
                .contains("S-122: parts on record: 1; places whose lot is unknown: 10.")
                .contains("12 Jun 2026, 10:00 until 3 Oct 2026, 15:00")
                .contains("<svg")
                // in words, and the names of places without a record too
                .contains(">exhalation valve</text>")
                .doesNotContain(">exhalation-valve</text>");
        assertThat(page.indexOf("H-2505A</a>")).isPositive().isLessThan(page.indexOf("H-2409B</a>"));
    }

    @Test
    void atAnEarlierMomentTheOldHoseIsIn() {
        assertThat(page("/sets/S-122/parts?at=2026-07-01T12:00"))
                .contains("In it on 1 Jul 2026, 12:00")
                .contains("H-2409B</a>")
                .doesNotContain("H-2505A");
    }

    @Test
    void aMomentThatCannotBeReadIsSaidBesideIt() {
        assertThat(page("/sets/S-122/parts?at=soon")).contains("at-error").contains("H-2505A</a>");
    }

    @Test
    void aLotIsFoundWhereItIsAndWhereItWasWithItsWears() {
        assertThat(page("/parts?lot=H-2409B"))
                .contains("Sets that have it now: 1. Sets that ever had it: 2. Wears meanwhile: 1.")
                .contains("Kay, T1, 2 Oct 2026, 07:00")
                .doesNotContain("4 Oct 2026, 07:00");
    }

    @Test
    void aLotNobodyEverSawIsInNoSet() {
        assertThat(page("/parts?lot=H-9999")).contains("No set has, or ever had, such a part on record.");
    }
}
