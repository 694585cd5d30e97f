package org.hoodkeeper.web.oversight;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.util.Arrays;
import java.util.UUID;
import org.hoodkeeper.access.Browser;
import org.hoodkeeper.access.OverHttp;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.evidence.Defects;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.store.StoreStory;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.annotation.Import;

/** A look-back from the failure to its closing, over real HTTP and without script. */
@OverHttp
@Import(StoreStory.class)
class LookBackPagesTest {

    @LocalServerPort
    int port;

    @Autowired
    TestPeople people;

    @Autowired
    StoreStory story;

    @Autowired
    Defects defects;

    private String at;
    private RecordId found;

    @BeforeEach
    void aTornVisor() {
        story.begin("2026-11-20T18:00").worker("Kay", "H30").set("S-1", "H30", "2026-05-01T09:00");
        story.examined("S-1", "2026-11-18T07:00");
        story.flowChecked("S-1", "190", "2026-11-19T07:00");
        story.wore("Kay", "S-1", "2026-11-19T08:00", "2026-11-19T10:30");
        found = story.in(() -> defects.found(
                story.author(), story.id("S-1"), "visor", "cracked", story.instant("2026-11-20T12:00"), null));
        at = "/sites/" + story.site().code();
    }

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    private Browser signedIn(Role role) {
        Browser browser = new Browser(port);
        browser.signIn(people.person(story.site(), role).login(), TestPeople.PASSWORD);
        return browser;
    }

    private HttpResponse<String> sent(Browser browser, String path, String step, String... fields) {
        browser.get(at + "/look-backs/" + found);
        String[] all = Arrays.copyOf(fields, fields.length + 4);
        all[fields.length] = "step";
        all[fields.length + 1] = step;
        all[fields.length + 2] = "formKey";
        all[fields.length + 3] = UUID.randomUUID().toString();
        return browser.post(at + "/look-backs/" + found + path, all);
    }

    @Test
    void theOfficerReadsDecidesAndCloses() {
        Browser officer = signedIn(Role.OFFICER);
        assertThat(officer.get(at + "/look-backs").body())
                .contains("Look-backs to be decided: 1. Open in all: 1.")
                .contains("damage: visor (defect)")
                .doesNotContain("??");
        String path = at + "/look-backs/" + found;
        assertThat(officer.get(path).body())
                .contains("S-1 may have been faulty from 18 Nov 2026, 07:00 until 20 Nov 2026, 12:00.")
                .contains("Wears: 1; people: 1; worn for 2")
                .contains(">Kay</a>")
                .contains("It looks at something else.")
                .doesNotContain("Close the look-back")
                .doesNotContain("??");
        assertThat(sent(officer, "/decision", "record").statusCode()).isEqualTo(422);
        assertThat(sent(officer, "/closing", "record", "done", "told her").body())
                .contains("Decide first what follows");
        assertThat(sent(officer, "/decision", "check", "measures", "TELL_WEARERS", "reason", "two hours")
                        .body())
                .contains("Tell those who wore it")
                .doesNotContain("??");
        sent(officer, "/decision", "record", "measures", "TELL_WEARERS", "reason", "two hours at T1");
        assertThat(officer.get(path).body())
                .contains("Decided; closed once it is done.")
                .contains("two hours at T1");
        assertThat(sent(officer, "/closing", "check", "done", "told on the 20th")
                        .body())
                .contains("told on the 20th")
                .doesNotContain("??");
        sent(officer, "/closing", "record", "done", "told on the 20th");
        assertThat(officer.get(path).body()).contains("Closed.");
        assertThat(officer.get(at + "/look-backs").body()).contains("No look-back is open.");
        assertThat(officer.get(at + "/indicators").body()).contains("Look-backs closed");
    }

    @Test
    void theStoreSeesSetsAndCountsAndNoNames() {
        Browser store = signedIn(Role.STOREKEEPER);
        assertThat(store.get(at + "/look-backs/" + found).body())
                .contains("Sets that may have had it: 1")
                .contains("Wears: 1; people: 1")
                .doesNotContain("Kay")
                .doesNotContain("Look over the decision");
        assertThat(store.get(at + "/look-backs").body()).doesNotContain("Kay");
        assertThat(store.get(at + "/sets/S-1").body()).contains("/look-backs?set=S-1");
        assertThat(store.get(at + "/records/" + found).body()).contains("To its look-back");
        assertThat(signedIn(Role.SUPERVISOR).get(at + "/look-backs/" + found).body())
                .contains(">Kay</a>")
                .doesNotContain("Look over the decision");
    }

    @Test
    void theListIsNarrowedToASetAndADayThatIsNoneIsSaid() {
        Browser officer = signedIn(Role.OFFICER);
        assertThat(officer.get(at + "/look-backs?set=s-1").body()).contains("Look-backs: 1");
        assertThat(officer.get(at + "/look-backs?set=S-9").body()).contains("No look-back is open.");
        assertThat(officer.get(at + "/look-backs?from=2026-11-21").body()).contains("No look-back is open.");
        assertThat(officer.get(at + "/look-backs?from=yesterday").body()).contains("yesterday");
    }

    @Test
    void aRecordThatFailedNothingHasNoLookBack() {
        RecordId fitted = story.fitted("S-1", "visor", "V-20", null, "2026-11-20T13:00");
        assertThat(signedIn(Role.OFFICER).get(at + "/look-backs/" + fitted).statusCode())
                .isEqualTo(404);
    }
}
