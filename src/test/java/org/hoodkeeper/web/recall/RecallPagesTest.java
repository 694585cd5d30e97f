package org.hoodkeeper.web.recall;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.access.Browser;
import org.hoodkeeper.access.OverHttp;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.store.StoreStory;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.annotation.Import;

/** A recall from the notice to the last set, over real HTTP and without script. */
@OverHttp
@Import(StoreStory.class)
class RecallPagesTest {

    @LocalServerPort
    int port;

    @Autowired
    TestPeople people;

    @Autowired
    StoreStory story;

    private String at;

    @BeforeEach
    void twoSetsWithTheLot() {
        story.begin("2026-11-20T08:00")
                .worker("Kay", "H30")
                .set("S-1", "H30", "2026-11-02T09:00")
                .set("S-2", "H30", "2026-11-02T09:00");
        story.fitted("S-1", "hose", "HZ-7", "H-2409B", "2026-11-02T10:00");
        story.fitted("S-2", "hose", "HZ-7", "H-2409B", "2026-11-02T10:00");
        story.disinfected("S-1", "2026-11-20T06:30").upToDate("S-1", "2026-11-20T07:00");
        story.issue("S-1", "Kay");
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

    private HttpResponse<String> recorded(Browser browser, String path, String... fields) {
        browser.get(at + path);
        String[] all = java.util.Arrays.copyOf(fields, fields.length + 4);
        all[fields.length] = "step";
        all[fields.length + 1] = "record";
        all[fields.length + 2] = "formKey";
        all[fields.length + 3] = UUID.randomUUID().toString();
        return browser.post(at + path, all);
    }

    @Test
    void theNoticeIsRecordedTheSetsAreHeldAndOneIsDecidedAbout() {
        Browser storekeeper = signedIn(Role.STOREKEEPER);
        assertThat(storekeeper.get(at + "/recalls").body()).contains("No recall is open.");
        HttpResponse<String> told = recorded(
                storekeeper,
                "/new-recall",
                "place",
                "hose",
                "lot",
                "H-2409B",
                "remedy",
                "STOP_NOW",
                "notice",
                "N-17",
                "reason",
                "cracks at the gasket");
        String recall = Browser.target(told);
        assertThat(recall).as(told.body()).startsWith(at + "/recalls/");

        assertThat(storekeeper.get(recall).body())
                .contains("Recall of hose, lot H-2409B. Sets to be done: 2; in hands: 1; worn this minute: 0.")
                .contains("<b>Kay</b>")
                .contains("Done: 0 % of 2 sets")
                .doesNotContain("/sets/S-2\">Decide");
        assertThat(storekeeper.get(at + "/recalls").body()).contains("Open recalls: 1. Sets still to be done: 2.");
        assertThat(storekeeper.get(at + "/sets/S-1").body()).contains("it must come back now");

        Browser officer = signedIn(Role.OFFICER);
        assertThat(officer.get(recall).body()).contains(recall + "/sets/S-2");
        String decision = recall.substring(at.length()) + "/sets/S-2";
        assertThat(recorded(officer, decision).statusCode()).isEqualTo(422);
        recorded(officer, decision, "reason", "read by T. Garside: made after the change");
        assertThat(officer.get(recall).body())
                .contains("Sets to be done: 1; in hands: 1")
                .contains("decided on 20 Nov 2026, 08:00 that it is not meant")
                .contains("Done: 50 % of 2 sets");
        assertThat(signedIn(Role.SUPERVISOR).get(recall).body())
                .contains("<b>Kay</b>")
                .doesNotContain(">Decide<");
    }

    /** A recall means a place by the model's own name: two names for one place must stay apart. */
    @Test
    void aPlaceIsNamedInWordsAndTwoNamesOfOneStayApart() {
        story.model("H31", "TH2", "170", new ModelData.Slot("Edge seal", Set.of("ES-3"), null));
        assertThat(signedIn(Role.STOREKEEPER).get(at + "/new-recall").body())
                .contains(
                        ">exhalation valve</option>",
                        "<option value=\"Edge seal\">edge seal (“Edge seal”)</option>",
                        "<option value=\"edge-seal\">edge seal (“edge-seal”)</option>")
                .doesNotContain(">exhalation-valve<");
    }

    @Test
    void beforeItIsRecordedThePageSaysHowManySetsItHolds() {
        Browser storekeeper = signedIn(Role.STOREKEEPER);
        storekeeper.get(at + "/new-recall");
        HttpResponse<String> checked = storekeeper.post(
                at + "/new-recall",
                "step",
                "check",
                "formKey",
                UUID.randomUUID().toString(),
                "place",
                "hose",
                "lot",
                "H-2409B",
                "remedy",
                "STOP_NOW",
                "reason",
                "cracks");
        assertThat(checked.body())
                .contains("Record this recall?")
                .contains("2, of them in hands: 1; counted as in because a mark is not on record: 0")
                .contains("Record recall and hold the sets")
                .doesNotContain("??");
        assertThat(storekeeper.get(at + "/recalls").body()).contains("No recall is open.");
    }

    @Test
    void aLotThatIsGivenAloneIsRefusedAndStaysTyped() {
        HttpResponse<String> refused = recorded(
                signedIn(Role.STOREKEEPER), "/new-recall", "lot", "H-2409B", "remedy", "STOP_NOW", "reason", "cracks");
        assertThat(refused.statusCode()).isEqualTo(422);
        assertThat(refused.body())
                .contains("Say which model, place or part is meant.")
                .contains("H-2409B");
    }

    @Test
    void aRecallThatNobodyRecordedIsNotFound() {
        assertThat(signedIn(Role.OFFICER)
                        .get(at + "/recalls/00000000-0000-7000-8000-000000000000")
                        .statusCode())
                .isEqualTo(404);
    }
}
