package org.hoodkeeper.web.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.net.http.HttpResponse;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.access.Browser;
import org.hoodkeeper.access.OverHttp;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.evidence.AirTests;
import org.hoodkeeper.evidence.SupplyMoves;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.SupplyMove;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SupplyId;
import org.hoodkeeper.store.StoreStory;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.annotation.Import;

/** A compressor C-1 with two air hoods A40 on it, S-301 and S-302. */
@OverHttp
@Import(StoreStory.class)
class SupplyPagesTest {

    private static final String PAGE = "/supplies/C-1";

    @LocalServerPort
    int port;

    @Autowired
    TestPeople people;

    @Autowired
    StoreStory story;

    @Autowired
    AirTests airTests;

    @Autowired
    SupplyMoves moves;

    private Browser storekeeper;
    private String at;
    private SupplyId supply;

    @BeforeEach
    void aCompressor() {
        story.begin("2026-08-20T09:00");
        ModelData hood = new ModelData(
                "A40",
                InterfaceType.AIRLINE_HOOD,
                Map.of("uk", "14594-3 hood"),
                false,
                Set.of("M"),
                "R1",
                new BigDecimal("140"),
                ModelData.FlowAt.LOCAL,
                null,
                Set.of(),
                List.of(),
                new BigDecimal("40"),
                List.of());
        supply = story.in(() -> story.kit().addSupply(story.site().id(), "C-1"));
        ModelId model =
                story.in(() -> story.kit().addModel(story.author(), "A40", hood, story.instant("2026-01-01T00:00")));
        for (String label : List.of("S-301", "S-302")) {
            SetData data = new SetData(model, "M", "R1", supply, false, "Main store", null);
            story.in(() -> story.kit().addSet(story.author(), label, data, story.instant("2026-08-01T09:00")));
        }
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
        return answer.body().replace('\u202f', ' ');
    }

    private void tested(String edition, String monoxide, String uncertainty, String flow, String local) {
        AirTest test = new AirTest(
                Outcome.PASS,
                edition,
                new BigDecimal("20.9"),
                new BigDecimal(monoxide),
                new BigDecimal("420"),
                new BigDecimal("0.1"),
                new BigDecimal("-14"),
                "Air laboratory",
                uncertainty == null ? null : new BigDecimal(uncertainty),
                null,
                flow == null ? null : new BigDecimal(flow));
        story.in(() -> airTests.record(story.author(), supply, test, story.instant(local), null));
    }

    /** Tested 12 August; moved 2 September 10:00 near the loading bay; tested again 4 September 14:30. */
    @Test
    void aMoveVoidsTheTestUntilTheNextOneAndThreeMonthsEndThat() {
        tested("EN 12021:2014", "2", null, null, "2026-08-12T09:00");
        assertThat(page(PAGE)).contains("The air of C-1 is tested and in date.");
        story.on("2026-09-03T09:00");
        story.in(() -> moves.record(
                story.author(),
                supply,
                new SupplyMove("Near the loading bay"),
                story.instant("2026-09-02T10:00"),
                null));
        assertThat(page(PAGE)).contains("C-1 must not be used.").contains("2 Sep 2026");
        story.on("2026-09-04T15:00");
        tested("EN 12021:2014", "2", null, null, "2026-09-04T14:30");
        story.on("2026-11-13T09:00");
        assertThat(page(PAGE)).contains("The air of C-1 is tested and in date.");
        story.on("2026-12-05T09:00");
        assertThat(page(PAGE)).contains("C-1 must not be used.");
    }

    /** 5 ppm of carbon monoxide are the UK rule set's limit, whatever the certificate names: 15 in 1999, 10 in Grade D. */
    @Test
    void eachComponentIsHeldAgainstTheStricterOfItsCertificateAndTheRules() {
        tested("EN 12021:1999", "4", null, null, "2026-08-12T09:00");
        assertThat(page(PAGE))
                .contains("The air of C-1 is tested and in date.")
                .contains("at most 5 ppm", "20 % to 22 %", "at most -11 °C".replace('-', '\u2212'));
        for (String edition : List.of("EN 12021:1999", "EN 12021:2014", "EN 12021", "A standard of our own")) {
            tested(edition, "12", null, null, "2026-08-13T09:00");
            assertThat(page(PAGE)).as(edition).contains("C-1 must not be used.").contains("at most 5 ppm", "outside");
        }
        tested("A standard of our own", "4", null, null, "2026-08-15T09:00");
        assertThat(page(PAGE)).contains("The air of C-1 is tested and in date.");
    }

    /** Grade D's dew point depends on a temperature that nobody typed, so it is not known to be dry enough for it. */
    @Test
    void whatTheTestDoesNotSayIsNamed() {
        tested("US Grade D", "4", null, null, "2026-08-14T09:00");
        assertThat(page(PAGE))
                .contains("C-1 must not be used.")
                .contains("The air test of 14 Aug 2026 does not show whether this is within its limit: dew point.")
                .contains("cannot be told", "not known");
    }

    /** 4.8 ppm with 10 % uncertainty may be 5.28: above 5. */
    @Test
    void uncertaintyCountsAgainstTheAir() {
        tested("EN 12021:2014", "4.8", null, null, "2026-08-12T09:00");
        assertThat(page(PAGE)).contains("The air of C-1 is tested and in date.");
        tested("EN 12021:2014", "4.8", "10", null, "2026-08-13T09:00");
        assertThat(page(PAGE))
                .contains("C-1 must not be used.")
                .contains("with 10 % uncertainty counted against the air");
    }

    /** 260 L/min each and 10 % leakage: one hood takes 286, two 572 of the 600 or of the 500 that it gives. */
    @Test
    void theDemandOfTheHoodsIsHeldAgainstTheTestedFlow() {
        tested("EN 12021:2014", "2", null, "600", "2026-08-12T09:00");
        assertThat(page(PAGE + "?perHood=260&leakage=10"))
                .contains("It feeds 2 hoods at once; 2 sets hang on it. Tested to give 600 L/min.");
        tested("EN 12021:2014", "2", null, "500", "2026-08-13T09:00");
        assertThat(page(PAGE + "?perHood=260&leakage=10"))
                .contains("It feeds only 1 hoods at once, and 2 sets hang on it. Tested to give 500 L/min.");
        assertThat(page(PAGE + "?perHood=260&leakage=-3"))
                .contains("it must lie between 0 and 100")
                .contains("value=\"-3\"");
        assertThat(page(PAGE + "?perHood=much")).contains("value=\"much\"");
    }

    @Test
    void carbonMonoxideThatRisesIsSaid() {
        tested("EN 12021:2014", "1", null, null, "2026-02-10T09:00");
        tested("EN 12021:2014", "2", null, null, "2026-05-12T09:00");
        tested("EN 12021:2014", "3", null, null, "2026-08-11T09:00");
        assertThat(page(PAGE))
                .contains("Carbon monoxide rises by 1.0 ppm a quarter over 3 tests")
                .contains("limit 5");
    }

    private HttpResponse<String> purifier(String changedBy, String nextOn, String step) {
        storekeeper.get(at + PAGE + "/purifier");
        return storekeeper.post(
                at + PAGE + "/purifier",
                "changedBy",
                changedBy,
                "nextOn",
                nextOn,
                "formKey",
                UUID.randomUUID().toString(),
                "step",
                step);
    }

    @Test
    void thePurifiersTagSaysWhenAndByWhomAndWhenAgain() {
        tested("EN 12021:2014", "2", null, null, "2026-08-12T09:00");
        assertThat(page(PAGE)).contains("No change of the purifiers is on record.");
        assertThat(purifier("P. Smith", "2026-08-01", "record").body())
                .contains("it cannot be due again on 1 Aug 2026");
        assertThat(purifier("", "2026-10-20", "check").statusCode()).isEqualTo(422);
        assertThat(purifier("P. Smith", "2026-10-20", "record").statusCode()).isEqualTo(302);
        assertThat(page(PAGE)).contains("Changed 20 Aug 2026, 09:00 by P. Smith.", "Due again by 20 Oct 2026.");
        story.on("2026-10-21T09:00");
        assertThat(page(PAGE))
                .contains("It was due by 20 Oct 2026.")
                .contains("Purifiers last changed on 20 Aug 2026; the next change has been due since");
    }
}
