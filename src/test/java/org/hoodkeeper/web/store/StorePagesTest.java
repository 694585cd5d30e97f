package org.hoodkeeper.web.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hoodkeeper.access.Browser;
import org.hoodkeeper.access.OverHttp;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.evidence.GuidedWorks;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.store.LabelCode;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.store.StoreStory;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.annotation.Import;

/** What a storekeeper does at the bench, over real HTTP and without script. */
@OverHttp
@Import(StoreStory.class)
class StorePagesTest {

    private static final Pattern HIDDEN =
            Pattern.compile("<input type=\"hidden\"[^>]*name=\"([^\"]+)\"[^>]*value=\"([^\"]*)\"");

    @LocalServerPort
    int port;

    @Autowired
    TestPeople people;

    @Autowired
    StoreStory story;

    @Autowired
    GuidedWorks works;

    private Browser storekeeper;
    private String at;

    @BeforeEach
    void aStore() {
        story.begin("2026-11-20T15:00")
                .worker("Kay", "H20")
                .worker("Lee", "H20")
                .set("S-098", "H20", "2026-11-02T09:00")
                .set("S-131", "H40", "2026-11-02T09:00")
                .set("S-201", "H20", "2026-11-02T09:00")
                .upToDate("S-098", "2026-11-20T13:00")
                .upToDate("S-131", "2026-11-20T13:00");
        at = "/sites/" + story.site().code();
        storekeeper = signedIn(Role.STOREKEEPER);
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

    private String page(String path) {
        HttpResponse<String> answer = storekeeper.get(at + path);
        assertThat(answer.statusCode()).as(path).isEqualTo(200);
        return answer.body();
    }

    /** Sends the check page's form as a browser does: every hidden field, and the button's step. */
    private HttpResponse<String> send(String path, HttpResponse<String> checked, String step) {
        Map<String, String> fields = new LinkedHashMap<>();
        Matcher hidden = HIDDEN.matcher(checked.body());
        while (hidden.find()) {
            fields.put(hidden.group(1), hidden.group(2).replace("&quot;", "\"").replace("&amp;", "&"));
        }
        fields.remove("_csrf");
        fields.put("step", step);
        return storekeeper.post(
                at + path,
                fields.entrySet().stream()
                        .flatMap(field -> java.util.stream.Stream.of(field.getKey(), field.getValue()))
                        .toArray(String[]::new));
    }

    private HttpResponse<String> recorded(String path, String... fields) {
        HttpResponse<String> checked = typed(path, fields);
        assertThat(checked.statusCode()).as(checked.body()).isEqualTo(200);
        HttpResponse<String> recorded = send(path, checked, "record");
        assertThat(Browser.target(recorded)).as(recorded.body()).contains("?done=");
        return storekeeper.get(Browser.target(recorded));
    }

    /** Opens the form, types, and asks to look the answers over. */
    private HttpResponse<String> typed(String path, String... fields) {
        storekeeper.get(at + path);
        return storekeeper.post(at + path, with(fields, "step", "check"));
    }

    private static String[] with(String[] fields, String... more) {
        String[] all = Arrays.copyOf(fields, fields.length + more.length + 2);
        System.arraycopy(more, 0, all, fields.length, more.length);
        all[all.length - 2] = "formKey";
        all[all.length - 1] = UUID.randomUUID().toString();
        return all;
    }

    private ShelfSet.State state(String label) {
        return story.shelf(label, "2026-11-20T15:10").state();
    }

    @Test
    void aSetForEmergenciesSaysSoWhereverItIsTakenInHand() {
        story.set("S-190", "H20", true, "2026-11-02T09:00");
        String row = page("/bench").replaceFirst("(?s).*(>S-190<.*?</tr>).*", "$1");
        assertThat(row).contains("Kept for emergencies");
        assertThat(page("/bench").replaceFirst("(?s).*(>S-201<.*?</tr>).*", "$1"))
                .doesNotContain("Kept for emergencies");
        for (String path : List.of("/sets/S-190", "/sets/S-190/issue", "/sets/S-190/flow-check")) {
            assertThat(page(path)).as(path).contains("Kept for emergencies");
        }
        assertThat(page("/sets/S-201/issue")).doesNotContain("Kept for emergencies");
    }

    @Test
    void theBenchAnswersInItsFirstSentence() {
        assertThat(page("/bench"))
                .contains("2 of 3 sets are ready; S-201 is not.")
                .contains("name=\"code\"", "autofocus")
                .contains("No examination is on record.")
                .contains(at + "/sets/S-201/examination")
                .contains("H20 M", "1 of 2", "H40 M", "1 of 1");
    }

    /** 340 of 480 min are 70 %, less than the site's 80: the battery is to be retired. */
    @Test
    void aBatteryIsMeasuredAtTheBenchAndItsLifeIsShown() {
        assertThat(page("/sets/S-098")).contains(at + "/sets/S-098/battery-test");
        assertThat(page("/sets/S-098/battery-test")).contains("Measure the battery of S-098");
        HttpResponse<String> nothing = typed(
                "/sets/S-098/battery-test", "hours", "0", "minutes", "0", "filter", "LOADED", "tester", "B. Tester");
        assertThat(nothing.statusCode()).isEqualTo(422);
        assertThat(nothing.body()).contains("A battery ran 0 min");
        HttpResponse<String> blank = typed("/sets/S-098/battery-test", "hours", "5", "serial", "B-77");
        assertThat(blank.statusCode()).isEqualTo(422);
        assertThat(blank.body()).contains("value=\"B-77\"");
        HttpResponse<String> done = recorded(
                "/sets/S-098/battery-test",
                "hours",
                "5",
                "minutes",
                "40",
                "filter",
                "LOADED",
                "serial",
                "B-77",
                "tester",
                "B. Tester");
        assertThat(done.body().replace("\u202f", " ")).contains("Battery measured, ran 5 h 40 min");
        assertThat(page("/sets/S-098/battery-test").replace("\u202f", " "))
                .contains("S-098: the battery that counts ran 5 h 40 min at its last test, 70 % of the maker’s figure.")
                .contains("B-77")
                .doesNotContain("Retire");
        story.decided("battery.retire-below", "80");
        assertThat(page("/sets/S-098/battery-test")).contains("Retire it.");
    }

    /** B-78 was measured after B-77 and runs longer: nobody knows which of them is in the set, so that B-77 counts. */
    @Test
    void thePageSaysWhichOfTwoBatteriesCounts() {
        for (String[] one : new String[][] {{"B-77", "5"}, {"B-78", "7"}}) {
            recorded(
                    "/sets/S-098/battery-test",
                    "hours",
                    one[1],
                    "minutes",
                    "0",
                    "filter",
                    "LOADED",
                    "serial",
                    one[0],
                    "tester",
                    "B. Tester");
        }
        String page = page("/sets/S-098/battery-test").replace("\u202f", " ");
        assertThat(page)
                .contains("S-098: the battery that counts ran 5 h at its last test, 62 % of the maker’s figure.")
                .containsOnlyOnce("<strong>Counts</strong>");
        assertThat(page.indexOf("B-78")).isLessThan(page.indexOf("B-77"));
        assertThat(page.indexOf("<strong>Counts</strong>")).isGreaterThan(page.indexOf("B-77"));
    }

    @Test
    void theFiltersStandInTheAddress() {
        String ready = page("/bench?state=READY&model=H40");
        assertThat(ready).contains("/sets/S-131\"").doesNotContain("/sets/S-098\"", "/sets/S-201\"");
        assertThat(page("/bench?state=OUT")).contains("No set fits what you asked for");
        assertThat(page("/bench?state=nonsense&page=x")).contains("/sets/S-131\"");
    }

    @Test
    void aSiteWithoutSetsSaysWhatWouldBeThere() {
        story.begin("2026-11-20T15:00");
        at = "/sites/" + story.site().code();
        storekeeper = signedIn(Role.STOREKEEPER);
        assertThat(page("/bench")).contains("There are no sets on this site yet.", at + "/new-set");
    }

    @ParameterizedTest
    @CsvSource({"S-098, /sets/S-098", "' s-098 ', /sets/S-098", "FM-1, /instruments/FM-1", "'', /bench"})
    void aScanLandsOnWhatWasScanned(String code, String path) {
        HttpResponse<String> answer = storekeeper.get(
                at + "/scan?code=" + java.net.URLEncoder.encode(code, java.nio.charset.StandardCharsets.UTF_8));
        assertThat(Browser.target(answer)).isEqualTo(at + path);
    }

    /** Sends one step's page with its hidden fields and an answer. */
    private HttpResponse<String> step(
            String path, HttpResponse<String> shown, String answer, String step, String... typed) {
        List<String> pairs = new ArrayList<>();
        Matcher hidden = HIDDEN.matcher(shown.body());
        while (hidden.find()) {
            if (!hidden.group(1).equals("_csrf")) {
                pairs.add(hidden.group(1));
                pairs.add(hidden.group(2));
            }
        }
        if (answer != null) {
            pairs.addAll(List.of("answer", answer));
        }
        pairs.addAll(List.of("step", step));
        pairs.addAll(List.of(typed));
        return storekeeper.post(at + path, pairs.toArray(String[]::new));
    }

    @Test
    void aSetIsLookedOverStepByStepAndOneFaultTakesItOutOfUse() {
        String path = "/sets/S-098/guides/inspection";
        HttpResponse<String> shown = storekeeper.get(at + path);
        assertThat(shown.body()).contains("Look at the visor").contains("step 1 of");
        HttpResponse<String> unanswered = step(path, shown, null, "next");
        assertThat(unanswered.statusCode()).isEqualTo(422);
        assertThat(unanswered.body()).contains("Say whether it is in order before you go on.");
        int steps = 0;
        while (shown.body().contains("name=\"answer\"")) {
            boolean valve = shown.body().contains("Look under the cover of the exhalation valve");
            shown = step(path, shown, valve ? "FAIL" : "PASS", "next");
            assertThat(shown.statusCode()).isEqualTo(200);
            steps++;
        }
        assertThat(steps).isEqualTo(11);
        HttpResponse<String> back = step(path, shown, null, "back");
        assertThat(back.body()).contains("Look at the battery").contains("checked");
        HttpResponse<String> checked = step(path, shown, null, "check");
        assertThat(checked.body())
                .contains("Look under the cover of the exhalation valve")
                .contains("Not in order");
        HttpResponse<String> recorded = step(path, checked, null, "record");
        assertThat(recorded.statusCode()).isEqualTo(302);
        assertThat(page("/sets/S-098"))
                .contains("Looked over: not all in order")
                .contains("Defect found exhalation valve")
                .doesNotContain("exhalation-valve", "EXHALATION_VALVE");
        assertThat(story.shelf("S-098", "2026-11-20T15:00").state()).isEqualTo(ShelfSet.State.BLOCKED);
    }

    /** Between the usual steps, in the words of the officer; what it comes out as is kept like any other answer. */
    @Test
    void aStepOfTheModelsOwnIsAskedInItsPlaceAndItsAnswerIsKept() {
        story.in(() -> works.add(
                story.author(),
                story.kit().model(story.site().id(), "H20").id(),
                "INSPECTION",
                "Press the red button: it springs back.",
                "INSPECTION.VISOR",
                "instructions, page 14",
                story.instant("2026-11-20T14:00")));
        story.in(() -> works.add(
                story.author(),
                story.kit().model(story.site().id(), "H20").id(),
                "INSPECTION",
                "Count the screws.",
                "INSPECTION.COUPLING",
                "instructions, page 15",
                story.instant("2026-11-20T14:00")));
        String path = "/sets/S-098/guides/inspection";
        HttpResponse<String> shown = storekeeper.get(at + path);
        List<String> order = new ArrayList<>();
        while (shown.body().contains("name=\"answer\"")) {
            String title = shown.body().replaceAll("(?s).*<h1[^>]*>([^<]*)</h1>.*", "$1");
            order.add(title);
            shown = step(path, shown, title.startsWith("Press the red button") ? "FAIL" : "PASS", "next");
        }
        assertThat(order).hasSize(13);
        assertThat(order.get(0)).contains("Look at the visor");
        assertThat(order.get(1)).isEqualTo("Press the red button: it springs back.");
        assertThat(order.get(12)).as("after a step that this model has not").isEqualTo("Count the screws.");
        HttpResponse<String> checked = step(path, shown, null, "check");
        assertThat(checked.body()).contains("Press the red button: it springs back. – Not in order");
        assertThat(step(path, checked, null, "record").statusCode()).isEqualTo(302);
        assertThat(page("/sets/S-098")).contains("Looked over: not all in order");
        assertThat(story.shelf("S-098", "2026-11-20T15:00").state()).isEqualTo(ShelfSet.State.BLOCKED);
    }

    @Test
    void aFlowMeasuredStepByStepIsJudgedAsAnyOther() {
        String path = "/sets/S-131/guides/flow";
        HttpResponse<String> shown = storekeeper.get(at + path);
        for (int i = 0; i < 4; i++) {
            shown = step(path, shown, "PASS", "next");
        }
        assertThat(step(path, shown, null, "check").body()).contains("Choose the indicator that was read.");
        String[] measured = {
            "page",
            "4",
            "answered",
            "INDICATOR=PASS",
            "answered",
            "SEALED=PASS",
            "answered",
            "FLOAT_FREE=PASS",
            "answered",
            "READ=PASS",
            "instrument",
            "FM-1",
            "reading",
            "171",
            "celsius",
            "20"
        };
        assertThat(storekeeper
                        .post(at + path, with(measured, "step", "check"))
                        .body()
                        .replace("\u202f", " "))
                .contains("171 L/min", "20 °C", "Failed: the set goes out of use when you record this");
        HttpResponse<String> recorded = storekeeper.post(at + path, with(measured, "step", "record"));
        assertThat(recorded.statusCode()).isEqualTo(302);
        assertThat(page("/sets/S-131")).contains("Flow check failed");
    }

    @Test
    void whatIsKeptAsFoundIsNotAskedForAtTheWash() {
        recorded("/sets/S-098/missing", "note", "not on its hook");
        recorded("/sets/S-098/found", "note", "in the kiln hall");
        assertThat(page("/wash")).contains("S-098");
        story.held("S-098", Hold.Why.IMPOUNDED, "2026-11-20T15:00");
        assertThat(page("/wash")).doesNotContain("S-098");
    }

    /** The product of the story's models needs 120 s wet at 50 ppm, and their parts bear 40 °C. */
    @Test
    void aBatchGoesThroughItsStepsInTheirOrderAndItsClockIsKept() {
        page("/wash");
        assertThat(storekeeper.post(at + "/wash", "labels", "S-404").body()).contains("No set “S-404” is on this site");
        HttpResponse<String> begun = storekeeper.post(at + "/wash", "labels", "S-098 S-131");
        String batch = Browser.target(begun).substring(at.length());
        assertThat(storekeeper.post(at + "/wash", "labels", "S-098").body())
                .contains("One of these sets is in another batch");
        assertThat(washed(batch, "RINSED").body()).contains("does not come next");
        assertThat(washed(batch, "WASHED", "celsius", "38").statusCode()).isEqualTo(302);
        assertThat(washed(batch, "WETTED", "product", "P-1", "strength", "50").statusCode())
                .isEqualTo(422);
        assertThat(washed(batch, "WETTED", "product", "CL-50", "strength", "49").body())
                .contains("Too weak: at least");
        assertThat(washed(batch, "WETTED", "product", "CL-50", "strength", "50").statusCode())
                .isEqualTo(302);
        story.on("2026-11-20T15:01");
        assertThat(washed(batch, "RINSED").body()).contains("Wait until the time is full");
        story.on("2026-11-20T15:03");
        assertThat(page("/wash"))
                .contains("One batch is in the wash.")
                .contains("Wet ")
                .contains("S-098, S-131");
        assertThat(washed(batch, "RINSED").statusCode()).isEqualTo(302);
        story.on("2026-11-20T16:40");
        assertThat(washed(batch, "DRY").statusCode()).isEqualTo(302);
        assertThat(page("/wash")).contains("Nothing is in the wash.");
        assertThat(page("/sets/S-131")).contains("Washed and disinfected, CL-50");
        assertThat(story.shelf("S-131", "2026-11-20T16:41").state()).isEqualTo(ShelfSet.State.BLOCKED);
        assertThat(page("/sets/S-131")).contains("/sets/S-131/flow-check");
    }

    @Test
    void aDeliveryIsTakenInAndALotThatNeverCameIsSaidWhenItIsFitted() {
        assertThat(page("/stock")).contains("Nothing is kept by lot yet.");
        recorded("/stock/delivery", "item", "V-20", "lot", "L-7", "pieces", "4", "lastDay", "2027-06-30");
        assertThat(page("/stock")).contains("L-7").contains("30 Jun 2027").contains("no order day on record yet");
        assertThat(typed("/stock/delivery", "item", "V-20", "lot", "L-7", "pieces", "4", "lastDay", "2027-07-31")
                        .body())
                .contains("Lot L-7 is on record with the last day 30 Jun 2027")
                .contains("value=\"2027-07-31\"");
        assertThat(typed("/stock/delivery", "item", "V-20", "pieces", "0").body())
                .contains("0 pieces cannot be");
        assertThat(typed("/sets/S-098/part", "slot", "visor", "part", "V-20", "lot", "L-404", "fitted", "TRAINED")
                        .body())
                .contains("the store never had this lot");
        assertThat(typed("/sets/S-098/part", "slot", "visor", "part", "V-20", "lot", "L-7", "fitted", "TRAINED")
                        .body())
                .contains("one is taken from this lot, of which 4 are left");
        recorded("/sets/S-098/part", "slot", "visor", "part", "V-20", "lot", "L-404", "fitted", "TRAINED");
        assertThat(page("/stock")).contains("Fitted, and never taken in").contains("V-20, lot L-404");
        assertThat(typed("/stock/withdrawal", "item", "V-20", "lot", "L-7", "pieces", "6", "use", "USED")
                        .body())
                .contains("only 4: count the shelf");
        recorded("/stock/delivery", "item", "V-20", "lot", "L-9", "pieces", "5", "lastDay", "2028-06-30");
        assertThat(typed("/stock/withdrawal", "item", "V-20", "lot", "L-9", "pieces", "1", "use", "USED")
                        .body())
                .contains("take lot L-7 first, good until the end of 30 Jun 2027");
        assertThat(typed("/stock/withdrawal", "item", "V-20", "lot", "L-7", "pieces", "1", "use", "USED")
                        .body())
                .doesNotContain("Runs out sooner");
        recorded("/stock/count", "item", "V-20", "lot", "L-7", "pieces", "3");
        assertThat(page("/stock")).contains("3, until the end of 30 Jun 2027");
        recorded("/sets/S-098/part", "slot", "visor", "part", "V-20", "lot", "l7", "fitted", "TRAINED");
        assertThat(page("/sets/S-098"))
                .contains("Taken from stock for this set: V-20, lot l7")
                .doesNotContain("Another record");
        assertThat(page("/stock")).contains("2, until the end of 30 Jun 2027");
    }

    @Test
    void aChangeStepByStepSaysThatTheStoreNeverHadTheLot() {
        recorded("/stock/delivery", "item", "V-20", "lot", "L-7", "pieces", "4", "lastDay", "2027-06-30");
        String path = "/sets/S-098/guides/change-visor";
        HttpResponse<String> shown = storekeeper.get(at + path);
        while (shown.body().contains("name=\"answer\"")) {
            shown = step(path, shown, "PASS", "next");
        }
        assertThat(step(path, shown, null, "check", "part", "V-20", "lot", "L-404", "fitted", "TRAINED")
                        .body())
                .contains("the store never had this lot: look where it came from");
    }

    @Test
    void waterOverTheLimitPutsTheSetOnHold() {
        page("/wash");
        String batch = Browser.target(storekeeper.post(at + "/wash", "labels", "S-098"))
                .substring(at.length());
        assertThat(washed(batch, "WASHED", "celsius", "95").statusCode()).isEqualTo(302);
        assertThat(page("/sets/S-098"))
                .contains("Held: quarantine", "quarantine. “95 °C &gt; 40 °C”", "Stripped, to be washed");
        assertThat(page("/sets/S-098/release")).contains("“95 °C &gt; 40 °C”");
        assertThat(page(batch))
                .contains("On hold: S-098. No wash ends a hold", "\">95 °C<")
                .doesNotContain("Ready at the earliest");
        assertThat(washed(batch, "BROKEN_OFF").statusCode()).isEqualTo(302);
        assertThat(page("/wash")).contains("Nothing is in the wash.");
    }

    @Test
    void aBatchWithOneSetOnHoldSaysWhenTheOthersAreReady() {
        story.held("S-098", Hold.Why.QUARANTINE, "2026-11-20T14:30");
        page("/wash");
        String batch = Browser.target(storekeeper.post(at + "/wash", "labels", "S-098 S-131"))
                .substring(at.length());
        assertThat(page(batch)).contains("On hold: S-098. No wash ends a hold", "Ready at the earliest");
    }

    private HttpResponse<String> washed(String batch, String next, String... fields) {
        String[] all = Arrays.copyOf(fields, fields.length + 2);
        all[fields.length] = "next";
        all[fields.length + 1] = next;
        return storekeeper.post(at + batch, all);
    }

    @Test
    void aPrintedLabelLandsOnItsSetAndOneOfAnotherSiteDoesNot() {
        String code = story.site().code();
        assertThat(scan(LabelCode.print(code, "S-098")).headers().firstValue("location"))
                .hasValueSatisfying(where -> assertThat(where).endsWith(at + "/sets/S-098"));
        assertThat(scan(LabelCode.print("elsewhere", "S-098")).body())
                .contains("The label S-098 is one of another site.");
        assertThat(scan(code + "/S-098/?").body()).contains("its check character does not fit");
    }

    private HttpResponse<String> scan(String code) {
        return storekeeper.get(
                at + "/scan?code=" + java.net.URLEncoder.encode(code, java.nio.charset.StandardCharsets.UTF_8));
    }

    @Test
    void labelsComeAsAFileAndAWrongOneIsNamed() {
        HttpResponse<String> sheet =
                storekeeper.get(at + "/labels/sheet?what=SETS&labels=S-098+S-131&sheet=A4_70_37&first=2");
        assertThat(sheet.statusCode()).isEqualTo(200);
        assertThat(sheet.headers().firstValue("content-type")).hasValue("application/pdf");
        HttpResponse<String> unknown = storekeeper.get(at + "/labels/sheet?what=SETS&labels=S-404&sheet=A4_70_37");
        assertThat(unknown.statusCode()).isEqualTo(422);
        assertThat(unknown.body()).contains("Nothing here has the label S-404").contains(">S-404</textarea>");
    }

    @Test
    void anUnknownLabelAndOneOfAnotherSiteLookTheSame() {
        HttpResponse<String> unknown = storekeeper.get(at + "/scan?code=S-999");
        story.begin("2026-11-20T15:00").set("S-777", "H20", "2026-11-02T09:00");
        HttpResponse<String> elsewhere = storekeeper.get(at + "/scan?code=S-777");
        HttpResponse<String> typed = storekeeper.get(at + "/sets/S-777");
        assertThat(unknown.statusCode()).isEqualTo(404);
        assertThat(elsewhere.statusCode()).isEqualTo(404);
        assertThat(typed.statusCode()).isEqualTo(404);
        assertThat(main(elsewhere)).isEqualTo(main(unknown).replace("S-999", "S-777"));
        assertThat(main(typed))
                .isEqualTo(main(elsewhere))
                .contains("Not found", "Nothing on this site has the code “S-777”.");
    }

    private static String main(HttpResponse<String> page) {
        return page.body().substring(page.body().indexOf("<main"), page.body().indexOf("</main>"));
    }

    @Test
    void aWithdrawnSetSaysSoAndWhatToDo() {
        story.held("S-098", Hold.Why.WITHDRAWN, "2026-11-20T14:00");
        assertThat(page("/sets/S-098"))
                .contains("Withdrawn", "Do not hand it out; keep it apart.")
                .doesNotContain(at + "/sets/S-098/issue");
    }

    @Test
    void aSetsPageAnswersFirstAndOffersThreeSteps() {
        assertThat(page("/sets/S-098"))
                .contains("S-098 is ready for anybody who is cleared for it.")
                .contains(at + "/sets/S-098/issue", at + "/sets/S-098/cleaning", at + "/sets/S-098/flow-check")
                .contains("Taken into the store", "Examination passed", "Flow check passed, 190")
                .contains("Corrected flow 190");
    }

    @Test
    void aFlowCheckSaysWhatTheFloatMustShowBeforeAndAfterItIsTyped() {
        assertThat(page("/sets/S-098/flow-check")).contains("FM-1: must show at least 170.0");
        HttpResponse<String> checked = typed("/sets/S-098/flow-check", "instrument", "FM-1", "reading", "181,5");
        assertThat(checked.body()).contains("Record this flow check?", "181.5", "170", "Passed");
        HttpResponse<String> done = storekeeper.get(Browser.target(send("/sets/S-098/flow-check", checked, "record")));
        assertThat(done.body()).contains("Recorded:", "Flow check passed, 181.5");
        assertThat(state("S-098")).isEqualTo(ShelfSet.State.READY);
    }

    /** 156 at 1,500 m (845.56 hPa, ICAO Doc 7488): 156 × √(1013.25 ÷ 845.56) = 170.77…, down to 170.7. */
    @Test
    void theHeightStandsForThePressureWhereNobodyMeasuredThat() {
        assertThat(typed("/sets/S-098/flow-check", "instrument", "FM-1", "reading", "156", "metres", "1500")
                        .body())
                .contains("845.56", "170.7", "Passed");
        assertThat(typed("/sets/S-098/flow-check", "instrument", "FM-1", "reading", "156")
                        .body())
                .contains("Failed");
        assertThat(typed(
                                "/sets/S-098/flow-check",
                                "instrument",
                                "FM-1",
                                "reading",
                                "156",
                                "metres",
                                "1500",
                                "hectopascals",
                                "845")
                        .body())
                .contains("Type the pressure or the height above sea level, not both.");
    }

    @Test
    void aFormSentTwiceIsRecordedOnce() {
        HttpResponse<String> checked = typed("/sets/S-098/flow-check", "instrument", "FM-1", "reading", "182");
        String first = Browser.target(send("/sets/S-098/flow-check", checked, "record"));
        String second = Browser.target(send("/sets/S-098/flow-check", checked, "record"));
        assertThat(first).contains("?done=").isEqualTo(second);
    }

    @Test
    void aFailedFlowTakesTheSetOutOfUse() {
        HttpResponse<String> done = recorded("/sets/S-098/flow-check", "instrument", "FM-1", "reading", "165");
        assertThat(done.body()).contains("Flow check failed, 165", "Not ready", "Held since");
        assertThat(state("S-098")).isEqualTo(ShelfSet.State.BLOCKED);
    }

    @ParameterizedTest
    @CsvSource({"1x9", "'1,2.3'", "1810", "''"})
    void whatCannotBeReadStaysOnThePageAndNothingIsSaved(String reading) {
        HttpResponse<String> refused =
                typed("/sets/S-098/flow-check", "instrument", "FM-1", "reading", reading, "celsius", "7");
        assertThat(refused.statusCode()).isEqualTo(422);
        assertThat(refused.body())
                .contains("value=\"" + reading + "\"", "value=\"7\"", "reading-error", "<title>Error: ")
                .doesNotContain("java.", "Exception");
    }

    @Test
    void goingBackFromTheCheckPageLosesNothing() {
        HttpResponse<String> checked =
                typed("/sets/S-098/defect", "part", "visor", "note", "deep scratch \"left\" & right");
        assertThat(checked.body()).contains("deep scratch");
        HttpResponse<String> back = send("/sets/S-098/defect", checked, "change");
        assertThat(back.statusCode()).isEqualTo(200);
        assertThat(back.body()).contains("deep scratch &quot;left&quot; &amp; right", "checked=\"checked\"");
    }

    @Test
    void aDefectBarsTheSetUntilItIsMendedAndItsFlowProven() {
        assertThat(recorded("/sets/S-098/defect", "part", "visor", "note", "deep scratch")
                        .body())
                .contains("Defect found visor", "A defect is open", "visor “deep scratch”");
        String form = page("/sets/S-098/mend");
        assertThat(form).as("whoever mends it reads what was seen").contains("visor “deep scratch”");
        Matcher open =
                Pattern.compile("value=\"([0-9a-f-]{36})\" name=\"found\"").matcher(form);
        assertThat(open.find()).as(form).isTrue();
        assertThat(recorded("/sets/S-098/mend", "found", open.group(1), "note", "new visor")
                        .body())
                .contains("Something was done to the set");
        recorded("/sets/S-098/flow-check", "instrument", "FM-1", "reading", "181");
        assertThat(state("S-098")).isEqualTo(ShelfSet.State.READY);
    }

    @Test
    void aHoldIsPlacedAndReleased() {
        assertThat(recorded("/sets/S-098/hold", "why", "QUARANTINE", "reason", "dust unknown")
                        .body())
                .contains("Held: quarantine", "Release hold");
        Matcher open =
                Pattern.compile("value=\"([0-9a-f-]{36})\" name=\"placed\"").matcher(page("/sets/S-098/release"));
        assertThat(open.find()).isTrue();
        assertThat(recorded("/sets/S-098/release", "placed", open.group(1), "reason", "washed twice")
                        .body())
                .contains("Released: quarantine", "is ready for anybody");
    }

    @Test
    void anIssueIsCheckedByTheEngineAndSaysWhatIsLeftToDo() {
        HttpResponse<String> checked = typed("/sets/S-098/issue", "worker", "Kay", "task", "T1", "hours", "4");
        assertThat(checked.body()).contains("Issue this set?", "Cleared", "The wearer checks it when putting it on.");
        assertThat(storekeeper
                        .get(Browser.target(send("/sets/S-098/issue", checked, "record")))
                        .body())
                .contains("Issued to Kay", "Kay has S-098 since");
        assertThat(recorded("/sets/S-098/return", "worn", "WORN", "note", "").body())
                .contains("Returned", "Ready for one person", "S-098 is ready for Kay only");
    }

    @Test
    void aRefusedIssueShowsEveryReasonAndAnotherReadySet() {
        HttpResponse<String> refused = typed("/sets/S-131/issue", "worker", "Kay", "task", "T1", "hours", "4");
        assertThat(refused.statusCode()).isEqualTo(422);
        assertThat(refused.body())
                .contains("Kay may not have S-131 for T1 now. One thing stands in the way.")
                .contains("Not trained on this model, H40; trained on H20.")
                .contains("Issue S-098 instead", "/sets/S-098/issue?worker=Kay&amp;task=T1&amp;hours=4");
        assertThat(state("S-131")).isEqualTo(ShelfSet.State.READY);
    }

    @Test
    void anUnknownWorkerIsNamedBesideTheField() {
        HttpResponse<String> refused = typed("/sets/S-098/issue", "worker", "K-404", "task", "T1", "hours", "4");
        assertThat(refused.statusCode()).isEqualTo(422);
        assertThat(refused.body()).contains("value=\"K-404\"", "worker-error");
    }

    @Test
    void cleaningOffersOnlyWhatTheMakerAllowsAndSaysWhetherItCovers() {
        assertThat(page("/sets/S-098/cleaning")).contains("CL-50: at least 50 ppm available chlorine, wet for 2");
        HttpResponse<String> weak = typed(
                "/sets/S-098/cleaning",
                "method",
                "WASH_AND_DISINFECT",
                "product",
                "CL-50",
                "strength",
                "50",
                "wetSeconds",
                "119");
        assertThat(weak.body()).contains("No: only a disinfection with product, strength and time does that");
        HttpResponse<String> full = typed(
                "/sets/S-098/cleaning",
                "method",
                "WASH_AND_DISINFECT",
                "product",
                "CL-50",
                "strength",
                "50",
                "wetSeconds",
                "120");
        assertThat(full.body())
                .contains("Yes, when it is dry and its flow is checked")
                .doesNotContain("Goes on hold");
        HttpResponse<String> hot = typed("/sets/S-098/cleaning", "method", "WASH", "celsius", "95");
        assertThat(hot.body()).contains("Record this cleaning?", "Goes on hold", "95 °C &gt; 40 °C");
    }

    @Test
    void aPartThatIsNotApprovedIsRecordedAndBarsTheSet() {
        assertThat(page("/sets/S-098/part")).contains("visor: V-20");
        assertThat(recorded("/sets/S-098/part", "slot", "visor", "part", "V-99", "fitted", "TRAINED")
                        .body())
                .contains("visor: V-99 fitted", "visor: the part V-99 is not approved for this model.");
        recorded("/sets/S-098/part", "slot", "visor", "part", "V-20", "fitted", "TRAINED");
        recorded("/sets/S-098/flow-check", "instrument", "FM-1", "reading", "181");
        assertThat(state("S-098")).isEqualTo(ShelfSet.State.READY);
    }

    @Test
    void anExaminationClearsWhatWaitedForIt() {
        recorded(
                "/sets/S-201/examination",
                "outcome",
                "PASS",
                "reading",
                "181",
                "indicator",
                "FM-1",
                "note",
                "All sound",
                "examiner",
                "E. Examiner");
        assertThat(state("S-201")).isEqualTo(ShelfSet.State.READY);
    }

    @Test
    void aMissingSetIsFoundAndThenWaits() {
        assertThat(recorded("/sets/S-098/missing", "note", "not on its hook").body())
                .contains("S-098 is missing since");
        assertThat(recorded("/sets/S-098/found", "note", "in the kiln hall").body())
                .contains("after it was missing: examine it first.");
        assertThat(state("S-098")).isEqualTo(ShelfSet.State.BLOCKED);
    }

    @Test
    void aDeliveredSetIsHeldUntilItIsAccepted() {
        HttpResponse<String> refused = typed(
                "/new-set", "label", "S-500", "model", "H20", "size", "XS", "sealRevision", "R1", "delivery", "DN 77");
        assertThat(refused.statusCode()).isEqualTo(422);
        assertThat(refused.body()).contains("The model does not come in size XS.", "value=\"S-500\"");
        recorded("/new-set", "label", "S-500", "model", "H20", "size", "M", "sealRevision", "R1", "delivery", "DN 77");
        assertThat(page("/sets/S-500")).contains("delivered, not yet accepted", "/sets/S-500/acceptance");
        assertThat(typed("/sets/S-500/acceptance", accepted("", "V-20")).body())
                .contains("Measure the first flow: choose the indicator and write down its reading.");
        assertThat(typed("/sets/S-500/acceptance", accepted("168", "V-20"))
                        .body()
                        .replace("\u202f", " "))
                .contains("Corrected 168.0 L/min, and the minimum is 170 L/min", "Not accepted: it stays held");
        assertThat(typed("/sets/S-500/acceptance", accepted("188", "")).body())
                .contains("Missing or not allowed: visor");
        assertThat(recorded("/sets/S-500/acceptance", accepted("188", "")).body())
                .contains("Looked over after delivery, not accepted for: Every part there and allowed");
        assertThat(state("S-500")).isEqualTo(ShelfSet.State.BLOCKED);
        assertThat(recorded("/sets/S-500/acceptance", accepted("188", "V-20")).body())
                .contains("<span>Accepted</span>");
        assertThat(state("S-500")).isEqualTo(ShelfSet.State.READY);
        assertThat(typed("/sets/S-500/acceptance", accepted("188", "V-20")).body())
                .contains("This set does not await acceptance");
    }

    /** The flow was too low, and the second look begins with the parts that the first one found. */
    @Test
    void aRefusedDeliverySaysWhyAndItsPartsAreNotTypedTwice() {
        recorded("/stock/delivery", "item", "V-20", "lot", "L-7", "pieces", "4", "lastDay", "2027-06-30");
        recorded("/new-set", "label", "S-500", "model", "H20", "size", "M", "sealRevision", "R1", "delivery", "DN 77");
        String[] low = append(accepted("160", "V-20"), "lot", "L-7", "serial", "9001", "note", "filter was wet");
        recorded("/sets/S-500/acceptance", low);
        assertThat(page("/sets/S-500"))
                .contains("Looked over after delivery, not accepted for: First flow.", "“filter was wet”");
        assertThat(page("/sets/S-500/acceptance")).contains("value=\"V-20\"", "value=\"L-7\"", "value=\"9001\"");
        recorded("/sets/S-500/acceptance", append(accepted("188", "V-20"), "lot", "L-7", "serial", "9001"));
        String page = page("/sets/S-500");
        assertThat(page).doesNotContain("not accepted for: First flow.");
        assertThat(page.split("visor: V-20 fitted", -1)).as("told once").hasSize(2);
        assertThat(page("/stock")).as("the part came in the set").contains("4, until the end of 30 Jun 2027");
    }

    private static String[] append(String[] fields, String... more) {
        String[] all = Arrays.copyOf(fields, fields.length + more.length);
        System.arraycopy(more, 0, all, fields.length, more.length);
        return all;
    }

    private static String[] accepted(String reading, String visor) {
        return new String[] {
            "contents",
            "PASS",
            "instructions",
            "PASS",
            "undamaged",
            "PASS",
            "approval",
            "PASS",
            "battery",
            "PASS",
            "alarms",
            "PASS",
            "labelled",
            "PASS",
            "examiner",
            "T. Garside",
            "instrument",
            "FM-1",
            "reading",
            reading,
            "part",
            visor
        };
    }

    @Test
    void aSetKeptAsFoundIsNeitherCleanedNorReleasedByTheStore() {
        story.held("S-098", Hold.Why.IMPOUNDED, "2026-11-20T14:00");
        assertThat(typed("/sets/S-098/cleaning", "method", "WASH").body())
                .contains("It is not cleaned before the safety officer releases it.");
    }

    @Test
    void anInstrumentOutOfDateIsNotOffered() {
        story.in(() -> story.kit().addInstrument(story.site().id(), "FM-2"));
        story.calibrated("FM-2", "2026-01-02T09:00", "2026-11-19");
        assertThat(page("/instruments/FM-2")).contains("Not valid");
        assertThat(page("/sets/S-098/flow-check")).contains("FM-1: ").doesNotContain("FM-2");
        assertThat(recorded(
                                "/instruments/FM-2/calibration",
                                "outcome",
                                "PASS",
                                "asFound",
                                "IN_TOLERANCE",
                                "factor",
                                "1.06",
                                "celsius",
                                "20",
                                "hectopascals",
                                "1013.25",
                                "lastDay",
                                "2027-11-19")
                        .body())
                .contains("FM-2 may be used until the end of 19 Nov 2027.");
        // reads 6 % high: 170 becomes 180.2
        assertThat(page("/sets/S-098/flow-check")).contains("FM-2: must show at least 180.2");
    }

    @Test
    void aSupplyTellsOfItsTestsAndMoves() {
        story.in(() -> story.kit().addSupply(story.site().id(), "AIR-1"));
        assertThat(page("/supplies/AIR-1")).contains("No set hangs on AIR-1");
        assertThat(recorded(
                                "/supplies/AIR-1/air-test",
                                "outcome",
                                "PASS",
                                "edition",
                                "EN 12021:2014",
                                "oxygenPercent",
                                "20.9")
                        .body())
                .contains("Air test passed, EN 12021:2014");
        assertThat(recorded("/supplies/AIR-1/move", "place", "loading bay").body())
                .contains("Moved: loading bay");
    }

    /** Before the answers are shown for looking over, not after. */
    @Test
    void theFutureIsRefusedBesideTheTime() {
        HttpResponse<String> refused = typed("/sets/S-098/missing", "note", "", "at", "2026-11-21T08:00");
        assertThat(refused.statusCode()).isEqualTo(422);
        assertThat(refused.body()).contains("at-error", "is still to come", "value=\"2026-11-21T08:00");
    }

    @Test
    void theOfficerReadsAndHoldsButRecordsNothingElse() {
        storekeeper = signedIn(Role.OFFICER);
        assertThat(page("/sets/S-098"))
                .contains(at + "/sets/S-098/hold")
                .doesNotContain(at + "/sets/S-098/issue", at + "/sets/S-098/cleaning");
    }

    @Test
    void thePagesSpeakSpanish() {
        assertThat(page("/bench?lang=es")).contains("2 de 3 equipos están listos; S-201 no.");
        assertThat(page("/sets/S-098")).contains("está listo para quien esté autorizado a llevarlo");
    }
}
