package org.hoodkeeper.web.worker;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.hoodkeeper.access.Browser;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.evidence.MedicalOutcomes;
import org.hoodkeeper.evidence.Symptoms;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.kernel.Role;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;

class TodayControllerTest extends Phone {

    @Autowired
    MedicalOutcomes outcomes;

    @Autowired
    Symptoms symptoms;

    /** A charged battery of H20 lasts 480 min. */
    @Test
    void theFirstSentenceSaysWhatWithWhatUntilWhenAndWhy() {
        String page = page("/today");
        assertThat(h1(page))
                .isEqualTo("You may do T1 with set S-098 until 23:00. It ends then because the battery ends.");
        assertThat(page).contains("The flow must show at least 170\u202fL/min.");
        assertThat(now(page)).isEqualTo(at + "/today/check/S-098");
    }

    @Test
    void aPlanThatIsTooLongIsClearedUntilTheBatteryEnds() {
        String page = page("/today?until=2026-11-21T01:00");
        assertThat(h1(page))
                .isEqualTo("You may do T1 with set S-098 until 23:00. It ends then because the battery ends.");
        assertThat(page).contains("value=\"2026-11-21T01:00\"");
    }

    /** The examination of 20 Nov is good for one month, its last day included. */
    @Test
    void aShorterPlanSaysWhatComesAfterIt() {
        String page = page("/today?until=2026-11-20T18:00");
        assertThat(h1(page)).isEqualTo("You may do T1 with set S-098 until 18:00.");
        assertThat(page)
                .contains("Does not apply here: ")
                .doesNotContain("Does not apply<")
                .contains("After that it still holds until 20 Nov 2026, 23:00; then the battery ends.")
                .contains("<dt>Thorough examination</dt><dd>until the end of 20 Dec 2026</dd>")
                .contains("<dt>Training on this model</dt><dd>until the end of 5 Jan 2027</dd>");
    }

    @ParameterizedTest
    @CsvSource({
        "2026-11-20T14:59, Choose an end from now on and within 24 hours.",
        "2026-11-21T15:01, Choose an end from now on and within 24 hours.",
        "soon, Give a day and a time that are in the calendar",
    })
    void anEndThatMakesNoSenseIsNamedBesideItsField(String until, String said) {
        assertThat(page("/today?until=" + until)).contains("until-error", said, "until 23:00");
    }

    @Test
    void withoutASetNobodyMayGoIn() {
        kay = phoneOf("Lee");
        String page = page("/today");
        assertThat(h1(page))
                .isEqualTo(
                        "You may not do T1 yet: no set is issued to you. Ask at the store for a set of model H20, size L.");
        assertThat(page).contains("Not cleared").doesNotContain("class=\"main\"");
    }

    @Test
    void aHeldSetSaysWhyAndWhichOtherIsReady() {
        story.held("S-098", org.hoodkeeper.facts.Hold.Why.QUARANTINE, "2026-11-20T15:00");
        String page = page("/today");
        assertThat(h1(page)).startsWith("You may not do T1 with set S-098. Held since 20 Nov 2026: quarantine.");
        assertThat(page)
                .contains("Set S-131 is ready in the store.", "Clear the hold, or take another set (storekeeper)")
                .doesNotContain("class=\"main\"");
    }

    /** "Nothing to do" beside what bars would send somebody away: it stands at the lines that are in order alone. */
    @Test
    void eachLineThatBarsSaysWhatClearsIt() {
        story.held("S-098", org.hoodkeeper.facts.Hold.Why.QUARANTINE, "2026-11-20T14:50");
        story.held("S-098", org.hoodkeeper.facts.Hold.Why.UNDER_REPAIR, "2026-11-20T14:55");
        List<String> barring = Pattern.compile("<tr>.*?</tr>", Pattern.DOTALL)
                .matcher(page("/today"))
                .results()
                .map(MatchResult::group)
                .filter(row -> row.contains("Held since"))
                .toList();
        assertThat(barring)
                .hasSize(2)
                .allSatisfy(row -> assertThat(row)
                        .contains("Clear the hold, or take another set (storekeeper)")
                        .doesNotContain("Nothing to do"));
    }

    @Test
    void whoIsPostedNowhereIsToldWhomToAsk() {
        story.in(() -> story.people().register(story.site().id(), "Mo", "Mo", null));
        kay = phoneOf("Mo");
        assertThat(h1(page("/today"))).isEqualTo("You are posted to no task. Ask your supervisor.");
    }

    @Test
    void myOwnOutcomeIsShownWithItsLimitsAndWhenItWasTold() {
        MedicalOutcome outcome = new MedicalOutcome(
                MedicalOutcome.Result.FIT_WITH_LIMITS,
                Set.of(InterfaceType.POWERED_HOOD),
                240,
                new BigDecimal("28"),
                null,
                true,
                LocalDate.parse("2027-03-31"),
                "Works health");
        story.in(() -> outcomes.record(story.author(), id("Kay"), outcome, story.instant("2026-11-19T10:00"), null));
        story.in(() -> symptoms.report(
                story.author(),
                id("Kay"),
                "a note that the supervisor wrote",
                story.instant("2026-11-01T10:00"),
                null));
        assertThat(page("/today")).contains(at + "/today/records");
        assertThat(page("/today/records"))
                .contains("Fit with limits. May wear these only: powered hood. At most 4", "h of wear in a shift.")
                .contains("Only up to 28 °C wet-bulb globe temperature.")
                .contains("Must not wear it alone. Good until the end of 31 Mar 2027.")
                .contains("19 Nov 2026, 10:00", "20 Nov 2026, 15:00")
                .doesNotContain("a note that the supervisor wrote");
    }

    @Test
    void onlyWhereThereAreMoreRecordsThanAreShownItIsSaid() {
        int there = page("/today/records").split("<th scope=\"row\">", -1).length - 1;
        for (int i = there; i < 200; i++) {
            coughed();
        }
        assertThat(page("/today/records").split("<th scope=\"row\">", -1)).hasSize(201);
        assertThat(page("/today/records")).doesNotContain("Only the newest");
        coughed();
        assertThat(page("/today/records")).contains("Only the newest 200 are shown");
        assertThat(page("/today/records").split("<th scope=\"row\">", -1)).hasSize(201);
    }

    private void coughed() {
        story.in(() -> symptoms.report(story.author(), id("Kay"), "cough", story.instant("2026-11-01T10:00"), null));
    }

    @Test
    void nothingOfSomebodyElseIsThere() {
        kay = phoneOf("Lee");
        assertThat(page("/today")).doesNotContain("S-098");
        for (String path : new String[] {"/today/check/S-098", "/today/defect/S-098", "/today/check/S-999"}) {
            assertThat(kay.get(at + path).statusCode()).as(path).isEqualTo(404);
        }
    }

    @Test
    void onlyWorkersHaveADay() {
        Browser officer = new Browser(port);
        officer.signIn(people.person(story.site(), Role.OFFICER).login(), TestPeople.PASSWORD);
        assertThat(officer.get(at + "/today").statusCode()).isEqualTo(403);
    }

    @Test
    void thePageSpeaksSpanish() {
        assertThat(h1(page("/today?lang=es")))
                .isEqualTo("Puede hacer T1 con el equipo S-098 hasta las 23:00. Termina entonces porque "
                        + "se acaba la batería.");
    }
}
