package org.hoodkeeper.web.worker;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import org.hoodkeeper.access.Browser;
import org.hoodkeeper.store.ShelfSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PreUseCheckControllerTest extends Phone {

    private static final String CHECK = "/today/check/S-098";

    @Test
    void onlyWhatTheModelHasIsAskedAndNothingIsChosenBeforehand() {
        assertThat(page(CHECK))
                .contains("name=\"blower\"", "name=\"battery\"", "name=\"chargePercent\"", "name=\"reading\"")
                .contains("The edge sits right all round")
                .contains("FM-1: must show at least 170.0\u202fL/min")
                .contains("The one that came with the set: must show at least 170\u202fL/min")
                .doesNotContain("checked=", "name=\"coupling\"", "name=\"skin\"", "The seal check held");
    }

    @Test
    void aGoodCheckLeadsToTheWayIn() {
        String today = recorded(CHECK, ALL_GOOD);
        assertThat(today).contains("Recorded: pre-use check");
        assertThat(now(today)).startsWith(at + "/today/enter?set=S-098&task=T1&until=2026-11-20T23:00:00");
    }

    /** Half a charge of a battery that lasts 480 min is four hours. */
    @Test
    void theChargeSaysHowLongTheBatteryLasts() {
        assertThat(h1(recorded(CHECK, but("chargePercent", "50", ALL_GOOD))))
                .isEqualTo("You may do T1 with set S-098 until 19:00. It ends then because the battery ends.");
    }

    @Test
    void whatWasNotAnsweredIsNamedAndTheRestKept() {
        HttpResponse<String> refused = typed(CHECK, but("chargePercent", "", but("visor", "", ALL_GOOD)));
        assertThat(refused.statusCode()).isEqualTo(422);
        assertThat(refused.body())
                .contains("visor-error", "chargePercent-error", "value=\"175\"", "<title>Error: ")
                .doesNotContain("blower-error");
    }

    @ParameterizedTest
    @CsvSource({"reading, 1x9", "reading, 1810", "chargePercent, 101", "indicator, FM-9"})
    void whatCannotBeIsRefusedAndNothingIsSaved(String field, String value) {
        HttpResponse<String> refused = typed(CHECK, but(field, value, ALL_GOOD));
        assertThat(refused.statusCode()).as(refused.body()).isEqualTo(422);
        assertThat(refused.body()).contains(field + "-error").doesNotContain("Exception");
        assertThat(now(page("/today"))).endsWith(CHECK);
    }

    @Test
    void aFlowBelowTheMinimumStopsAndTakesTheSetOutOfUse() {
        HttpResponse<String> checked = typed(CHECK, but("reading", "169", ALL_GOOD));
        assertThat(checked.body()).contains("Not good: do not wear it.");
        String stop = follow(send(CHECK, checked.body(), "step", "record"));
        assertThat(h1(stop)).isEqualTo("Do not wear S-098.");
        assertThat(stop)
                .contains("Tag it as out of use and hand it in at the store as you found it")
                .contains("Flow below the number that must be shown");
        assertThat(story.shelf("S-098", "2026-11-20T15:10").isHeld(org.hoodkeeper.facts.Hold.Why.DEFECT))
                .isTrue();
        assertThat(h1(page("/today"))).startsWith("You may not do T1 with set S-098.");
    }

    @Test
    void theWrongSetIsSwappedNotTagged() {
        assertThat(recorded(CHECK, but("rightSet", "FAIL", ALL_GOOD)))
                .contains("ask for yours")
                .doesNotContain("Tag it as out of use");
        assertThat(story.shelf("S-098", "2026-11-20T15:10").state()).isEqualTo(ShelfSet.State.OUT);
    }

    @Test
    void aHoodThatDoesNotSitIsSeatedAgain() {
        assertThat(recorded(CHECK, but("placement", "FAIL", ALL_GOOD))).contains("put it on once more and check again");
        assertThat(h1(page("/today"))).contains("The placement check of 20 Nov 2026 was not passed.");
    }

    @Test
    void aCheckSentTwiceIsRecordedOnce() {
        HttpResponse<String> checked = typed(CHECK, ALL_GOOD);
        String first = Browser.target(send(CHECK, checked.body(), "step", "record"));
        assertThat(first).contains("?done=");
        assertThat(Browser.target(send(CHECK, checked.body(), "step", "record")))
                .isEqualTo(first);
    }

    @Test
    void theStopPageOfSomebodyElsesCheckIsNotThere() {
        String target = Browser.target(
                send(CHECK, typed(CHECK, but("visor", "FAIL", ALL_GOOD)).body(), "step", "record"));
        assertThat(kay.get(target).statusCode()).isEqualTo(200);
        assertThat(phoneOf("Lee").get(target).statusCode()).isEqualTo(404);
        assertThat(kay.get(at + "/today/stop/nonsense").statusCode()).isEqualTo(404);
    }
}
