package org.hoodkeeper.web.worker;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import org.hoodkeeper.access.Browser;
import org.hoodkeeper.facts.Hold;
import org.junit.jupiter.api.Test;

class EnterControllerTest extends Phone {

    private static final String PLAN = "set=S-098&task=T1&until=2026-11-20T19:00:00Z";

    @Test
    void withoutTheCheckBeforeUseNobodyGoesIn() {
        String page = page("/today/enter?" + PLAN);
        assertThat(h1(page)).isEqualTo("Do not go in to T1 with set S-098.");
        assertThat(page)
                .contains("Check before use: The wearer checks it when putting it on.", "Check before use (worker)");
        assertThat(now(page)).isEqualTo(at + "/today/check/S-098");
        HttpResponse<String> refused =
                posted("/today/enter", "set", "S-098", "task", "T1", "until", "2026-11-20T19:00:00Z");
        assertThat(refused.statusCode()).isEqualTo(422);
        assertThat(gateAnswers()).as("the no is kept").isEqualTo(1);
        assertThat(page("/today/leave")).contains("You are not recorded as inside.");
    }

    @Test
    void goingInAndComingOutAgain() {
        recorded("/today/check/S-098", ALL_GOOD);
        String look = kay.get(now(page("/today"))).body();
        assertThat(h1(look)).isEqualTo("You may go in to T1 with set S-098 until 23:00.");
        assertThat(gateAnswers()).as("looking is not acting").isZero();
        HttpResponse<String> in = send("/today/enter", look);
        String today = follow(in);
        assertThat(gateAnswers()).isEqualTo(1);
        assertThat(h1(today))
                .isEqualTo("You are in T1 with set S-098 since 15:00. You may stay until 23:00. "
                        + "It ends then because the battery ends.");
        assertThat(today).contains("Check the flow again at 19:00, 21:00.");
        assertThat(Browser.target(send("/today/enter", look))).as("sent twice").isEqualTo(Browser.target(in));
        assertThat(gateAnswers()).isEqualTo(1);

        story.on("2026-11-20T16:30");
        String leave = kay.get(now(page("/today"))).body();
        assertThat(h1(leave)).isEqualTo("You have been in T1 with set S-098 since 15:00. Are you out?");
        String out = follow(send("/today/leave", leave));
        assertThat(out).contains("Recorded: wear, 20 Nov 2026, 16:30.");
        assertThat(now(out)).as("checked again before each use").isEqualTo(at + "/today/check/S-098");
    }

    @Test
    void whoeverIsInsideIsToldToComeOutWhenTheSetIsHeld() {
        goIn();
        story.on("2026-11-20T15:20");
        story.held("S-098", Hold.Why.RECALL, "2026-11-20T15:20");
        String today = page("/today");
        assertThat(h1(today)).startsWith("Come out now. Held since 20 Nov 2026: recall.");
        assertThat(now(today)).isEqualTo(at + "/today/leave");
    }

    /** An alarm sends people out again at once, and a report of it must not wait. */
    @Test
    void whoeverComesOutAfterSecondsIsNotRefused() {
        goIn();
        story.on("2026-11-20T15:00:20");
        assertThat(follow(send("/today/leave", page("/today/leave")))).contains("Recorded: wear, 20 Nov 2026, 15:00.");
    }

    @Test
    void aPlanThatTheBatteryDoesNotLastIsTurnedBackWithTheShorterOne() {
        recorded("/today/check/S-098", but("chargePercent", "50", ALL_GOOD));
        String page = page("/today/enter?set=S-098&task=T1&until=2026-11-20T20:00:00Z");
        assertThat(h1(page)).isEqualTo("Do not go in to T1 with set S-098.");
        assertThat(page).contains("Go in until 19:00 instead");
        assertThat(h1(kay.get(now(page)).body())).isEqualTo("You may go in to T1 with set S-098 until 19:00.");
    }

    @Test
    void nobodyGoesInTwice() {
        goIn();
        HttpResponse<String> again =
                posted("/today/enter", "set", "S-098", "task", "T1", "until", "2026-11-20T19:00:00Z");
        assertThat(again.statusCode()).isEqualTo(422);
        assertThat(again.body()).contains("has not come out");
        assertThat(gateAnswers()).as("nothing is saved by half").isEqualTo(1);
    }

    @Test
    void somebodyElsesSetIsTurnedBack() {
        kay = phoneOf("Lee");
        assertThat(page("/today/enter?" + PLAN)).contains("Somebody else has it.");
    }

    @Test
    void whatMakesNoSenseIsSaidOnThePage() {
        for (String query : new String[] {
            "",
            "?set=S-098&task=T1&until=soon",
            "?set=S-098&task=T1&until=2026-11-20T14:00:00Z",
            "?set=S-098&task=T1&until=2026-11-22T14:00:00Z"
        }) {
            HttpResponse<String> refused = kay.get(at + "/today/enter" + query);
            assertThat(refused.statusCode()).as(query).isEqualTo(422);
            assertThat(refused.body()).as(query).contains("role=\"alert\"").doesNotContain("class=\"main\"");
        }
        assertThat(kay.get(at + "/today/enter?set=S-9&task=T1&until=2026-11-20T19:00:00Z")
                        .statusCode())
                .isIn(404, 422);
    }

    @Test
    void comingOutWithoutHavingGoneInIsRefused() {
        HttpResponse<String> refused = posted("/today/leave", "entry", "");
        assertThat(refused.statusCode()).isEqualTo(422);
        assertThat(refused.body()).contains("is open at 20 Nov 2026, 15:00");
    }
}
