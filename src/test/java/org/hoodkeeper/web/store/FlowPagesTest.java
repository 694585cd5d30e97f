package org.hoodkeeper.web.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.net.http.HttpResponse;
import java.time.LocalDate;
import java.util.UUID;
import org.hoodkeeper.access.Browser;
import org.hoodkeeper.access.OverHttp;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.evidence.Calibrations;
import org.hoodkeeper.evidence.FlowChecks;
import org.hoodkeeper.evidence.PartChanges;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.store.StoreStory;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.annotation.Import;

/** The flow of a set through time, and what became of an instrument's readings; H20's minimum is 170 L/min. */
@OverHttp
@Import(StoreStory.class)
class FlowPagesTest {

    private static final String[] WEEKS = {
        "2026-10-12T09:00",
        "2026-10-19T09:00",
        "2026-10-26T09:00",
        "2026-11-02T09:00",
        "2026-11-09T09:00",
        "2026-11-16T09:00"
    };

    @LocalServerPort
    int port;

    @Autowired
    TestPeople people;

    @Autowired
    StoreStory story;

    @Autowired
    FlowChecks flowChecks;

    @Autowired
    PartChanges partChanges;

    @Autowired
    Calibrations calibrations;

    private Browser storekeeper;
    private String at;

    @BeforeEach
    void aSet() {
        story.begin("2026-11-20T15:00").set("S-098", "H20", "2026-10-01T09:00");
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

    private void weekly(String... readings) {
        for (int week = 0; week < readings.length; week++) {
            story.flowChecked("S-098", readings[week], WEEKS[week]);
        }
    }

    /**
     * 196, 193, 191, 188, 184, 182 from week 0: Theil–Sen −3.00 a week, at 170 in week 9.0; the 95 % bound in week 8.44, that is
     * 59.1 days after 12 October, on 10 December.
     */
    @Test
    void theFirstSentenceNamesTheDayAndWeekBeforeTheBoundMeetsTheMinimum() {
        weekly("196", "193", "191", "188", "184", "182");
        assertThat(page("/sets/S-098/flow"))
                .contains("Serve S-098 by 9 Dec 2026, week 50: its flow falls by 3.0 L/min a week")
                .contains("minimum 170", "trend −3.0 a week", "14 Dec 2026", "10 Dec 2026", "6 measurements")
                .contains("class=\"bound\"")
                .containsPattern("(?s)16 Nov 2026, 09:00.*12 Oct 2026, 09:00");
    }

    @Test
    void theSamePageSpeaksSpanish() {
        weekly("196", "193", "191", "188", "184", "182");
        assertThat(page("/sets/S-098/flow?lang=es")).contains("Atienda S-098 a más tardar el 9 dic 2026, semana 50");
    }

    @Test
    void aSuddenDropIsToldAsAFault() {
        weekly("198", "197", "196", "195", "181", "180");
        assertThat(page("/sets/S-098/flow"))
                .contains(
                        "The flow of S-098 fell by 13.0 L/min at once by 9 Nov 2026: look for a fault, this is not ageing.");
    }

    @Test
    void aNewFilterBeginsANewLine() {
        weekly("196", "193", "191", "188", "184", "182");
        story.in(() -> partChanges.record(
                story.author(),
                story.id("S-098"),
                "visor",
                new PartChange("V-20", null, null, null, true, null),
                story.instant("2026-11-17T09:00"),
                null));
        story.flowChecked("S-098", "199", "2026-11-17T10:00");
        assertThat(page("/sets/S-098/flow"))
                .contains("S-098 gave 199.0 L/min on 17 Nov 2026, minimum 170 L/min.")
                .contains("count since its last change: 1; a trend needs 4")
                .contains("visor changed");
    }

    @Test
    void aSetBelowItsMinimumIsNotPutOffToAWeek() {
        weekly("196", "193", "191", "188", "184");
        story.flowChecked("S-098", "169", WEEKS[5]);
        assertThat(page("/sets/S-098/flow"))
                .contains("S-098 gave 169.0 L/min on 16 Nov 2026, less than its minimum of 170 L/min")
                .contains("class=\"failed\"");
    }

    @Test
    void aSetWithoutAReadingSaysWhatWouldBeHere() {
        assertThat(page("/sets/S-098/flow"))
                .contains("No flow of S-098 that counts is on record.")
                .contains("Flow checks and examinations with a reading appear here.");
        assertThat(storekeeper.get(at + "/sets/S-404/flow").statusCode()).isEqualTo(404);
        assertThat(storekeeper.get(at + "/sets/S-098/flow?check=nonsense").statusCode())
                .isEqualTo(400);
    }

    /** 165 at 4 °C and 1,013 hPa on a scale right at 20 °C and 1,013.25 hPa is 160.45 L/min; down to 160.4. */
    @Test
    void eachCheckSaysWhatItRestedOn() {
        UUID check = story.in(() -> flowChecks.record(
                        story.author(),
                        story.id("S-098"),
                        new FlowChecks.Reading(
                                new BigDecimal("165"), kitInstrument(), new BigDecimal("4"), new BigDecimal("1013")),
                        story.instant("2026-11-16T09:00"),
                        null))
                .record()
                .value();
        assertThat(page("/sets/S-098/flow?check=" + check))
                .contains("165 L/min", "4 °C", "1013 hPa", "160.4 L/min, rounded down")
                .contains("20 °C and 1013.25 hPa")
                .contains("of 2 Jan 2026, good until the end of 31 Dec 2026, no certificate number on record")
                .contains("0 L/min; the certificate states none")
                .contains("170 L/min, in the air as it is")
                .contains("174.9 L/min")
                .contains("failed with 160.4 L/min against 170 L/min");
    }

    private org.hoodkeeper.kernel.InstrumentId kitInstrument() {
        return story.kit().instrument(story.site().id(), "FM-1").id();
    }

    private void foundToShow(String forATrueOne) {
        Calibration found = new Calibration(
                Outcome.PASS,
                false,
                BigDecimal.ONE,
                null,
                new BigDecimal("20"),
                new BigDecimal("1013.25"),
                LocalDate.parse("2027-11-18"),
                "C-2",
                forATrueOne == null ? null : new BigDecimal(forATrueOne));
        story.in(() ->
                calibrations.record(story.author(), kitInstrument(), found, story.instant("2026-11-18T09:00"), null));
    }

    /** It came in reading 8 % high: 182 was 168.5 and 196 was 181.4. Neither counts, whatever it was. */
    @Test
    void whatAWrongInstrumentMeasuredNoLongerCountsAndIsNotPassedAgain() {
        story.set("S-131", "H20", "2026-10-01T09:00");
        story.flowChecked("S-098", "196", WEEKS[0]).flowChecked("S-131", "182", WEEKS[5]);
        assertThat(page("/instruments/FM-1"))
                .contains("Readings since its last good calibration: 2. All of them count.");
        foundToShow("1.08");
        story.on("2026-11-20T16:00").flowChecked("S-098", "190", "2026-11-20T15:30");
        assertThat(page("/instruments/FM-1"))
                .contains("Readings since its last good calibration: 3; of them 2 do not count.")
                .contains("With the error that was found, 1 would have failed")
                .contains("With the error that was found it gave 168.5 L/min: too little.")
                .contains("With the error that was found it still gave 181.4 L/min; only a new measurement counts.")
                .contains("does not count: the next calibration found the instrument out of tolerance");
        assertThat(page("/sets/S-131/flow"))
                .contains("No flow of S-131 that counts is on record.")
                .contains("class=\"refused\"");
    }

    @Test
    void anErrorThatNobodyMeasuredIsSaid() {
        story.flowChecked("S-098", "196", WEEKS[0]);
        foundToShow(null);
        assertThat(page("/instruments/FM-1"))
                .contains("1; of them 1 do not count")
                .contains("How far it was out was not measured. Measure again.");
    }

    @Test
    void anErrorBeyondReasonIsRefusedAndStaysTyped() {
        String path = at + "/instruments/FM-1/calibration";
        storekeeper.get(path);
        HttpResponse<String> answer = storekeeper.post(
                path,
                "outcome",
                "PASS",
                "asFound",
                "OUT_OF_TOLERANCE",
                "asFoundFactor",
                "108",
                "factor",
                "1",
                "celsius",
                "20",
                "hectopascals",
                "1013.25",
                "lastDay",
                "2027-11-18",
                "formKey",
                UUID.randomUUID().toString(),
                "step",
                "record");
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.body())
                .contains("As found 108: it must lie between 0.5 and 2.")
                .contains("value=\"108\"");
    }
}
