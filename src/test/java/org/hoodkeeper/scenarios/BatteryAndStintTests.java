package org.hoodkeeper.scenarios;

import static org.hoodkeeper.facts.InterfaceType.POWERED_HOOD;
import static org.hoodkeeper.rules.RequirementKind.BATTERY;
import static org.hoodkeeper.scenarios.AnswerAssert.assertThat;

import java.time.LocalDate;
import org.assertj.core.api.Assertions;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.ClearBy;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.calculation.FlowPrompts;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.web.ReasonWords;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** "Battery vs stint": what was measured counts, not what the maker promised. The hood is rated for 8 h. */
@ScenarioTest
class BatteryAndStintTests {

    @Autowired
    Story.Door door;

    @Autowired
    ReasonWords words;

    private Story ferrow;

    @BeforeEach
    void oneHoodThatIsReady() {
        ferrow = door.ferrow()
                .worker("Kay")
                .limit("silica", "0.1", FilterKind.PARTICLE)
                .task("T4", "silica", "0.6")
                .model("H20", POWERED_HOOD, "TH2", "170", false)
                .set("S-201", "H20", "M")
                .posted("Kay", "T4")
                .on("2026-11-24T12:00")
                .indicator("FI-1", "2026-05-01", "2027-04-30")
                .trained("Kay", "H20", "2026-11-24T09:00")
                .examined("S-201", "190", "FI-1", "2026-11-24T10:00");
    }

    private Answer plan(String until) {
        return ferrow.may("Kay", "T4").with("S-201").from("2026-11-25T06:00", until);
    }

    private Answer swapping(String at) {
        return ferrow.may("Kay", "T4").with("S-201").swappingAt(at).from("2026-11-25T06:00", "2026-11-25T12:30");
    }

    /** Rated 8 h, last test with a loaded filter 5 h 40, reserve 30 min: 5 h 10 of a stint of 6 h 30, flow prompts at 4 h and 6 h. */
    @Test
    void aStintOfSixHoursThirtyNeedsASwapByFiveHoursTen() {
        ferrow.decides("battery.reserve", "PT30M", "2026-01-01").batteryRan("S-201", 340, true, "2026-11-24T11:00");
        Answer whole = plan("2026-11-25T12:30");
        assertThat(whole).isNotCleared().onlyBecauseOf(BATTERY).because(BATTERY, Why.BATTERY_MEASURED);
        Assertions.assertThat(whole.prefix().interval().until()).isEqualTo(ferrow.instant("2026-11-25T11:10"));
        Assertions.assertThat(whole.clearBy())
                .contains(new ClearBy(
                        BATTERY,
                        ClearBy.Action.SWAP_BATTERY,
                        org.hoodkeeper.kernel.Role.WORKER,
                        ferrow.instant("2026-11-25T11:10")));
        assertThat(plan("2026-11-25T11:10")).isCleared();
        assertThat(swapping("2026-11-25T11:10")).isClearedWithConditions();
        assertThat(swapping("2026-11-25T11:11")).isNotCleared().onlyBecauseOf(BATTERY);
        Assertions.assertThat(FlowPrompts.of(
                        new Interval(ferrow.instant("2026-11-25T06:00"), ferrow.instant("2026-11-25T12:30"))))
                .containsExactly(ferrow.instant("2026-11-25T10:00"), ferrow.instant("2026-11-25T12:00"));
    }

    /** What was known before the test was told, and what a battery promises that nobody measured. */
    @Test
    void beforeItWasMeasuredTheMakersFigureCountedLessWhatIsKeptBack() {
        ferrow.decides("battery.reserve", "PT30M", "2026-01-01")
                .on("2026-11-24T14:00")
                .batteryRan("S-201", 340, true, "2026-11-24T13:00");
        Answer before = ferrow.may("Kay", "T4")
                .with("S-201")
                .asKnownAt("2026-11-24T13:59")
                .from("2026-11-25T06:00", "2026-11-25T12:30");
        assertThat(before).isCleared().has(BATTERY, Result.MET, Why.BATTERY_ENDS);
        assertThat(before).isClearedUntil(ferrow.instant("2026-11-25T13:30"), BATTERY);
    }

    /** 340 min × 0.8 = 272 min with a clean filter, less 30: 4 h 02; and never longer than the maker says. */
    @Test
    void aTimeMeasuredWithACleanFilterIsCutDownByTheLoad() {
        ferrow.decides("battery.reserve", "PT30M", "2026-01-01")
                .decides("battery.load", "0.8", "2026-01-01")
                .batteryRan("S-201", 340, false, "2026-11-24T11:00");
        assertThat(plan("2026-11-25T10:02")).isCleared();
        assertThat(plan("2026-11-25T10:03")).isNotCleared().onlyBecauseOf(BATTERY);
        ferrow.batteryRan("S-201", 600, true, "2026-11-24T11:30");
        assertThat(plan("2026-11-25T13:30")).isCleared();
        assertThat(plan("2026-11-25T13:31")).isNotCleared().onlyBecauseOf(BATTERY);
    }

    /**
     * Told before the door asked for a part of a whole: eighty times as long is never read, neither of the maker's 8 h nor of what
     * was measured with a clean filter. What was measured with a loaded one needs no such part.
     */
    @Test
    void aLoadThatIsNoPartOfAWholeLeavesTheRunningTimeUnknown() {
        ferrow.tell(Draft.of(
                        new SiteDecision("80", "Safety officer", "meant as per cent"),
                        ferrow.site().id(),
                        ferrow.instant("2026-01-01"))
                .scope("battery.load"));
        assertThat(plan("2026-11-25T12:30"))
                .isNotCleared()
                .onlyBecauseOf(BATTERY)
                .has(BATTERY, Result.UNKNOWN, Why.LOAD_UNKNOWN);
        ferrow.batteryRan("S-201", 340, false, "2026-11-24T11:00");
        Answer clean = plan("2026-11-25T06:30");
        assertThat(clean).has(BATTERY, Result.UNKNOWN, Why.LOAD_UNKNOWN);
        Assertions.assertThat(clean.clearBy())
                .contains(new ClearBy(BATTERY, ClearBy.Action.SITE_DECIDES, org.hoodkeeper.kernel.Role.OFFICER, null));
        ferrow.batteryRan("S-201", 340, true, "2026-11-24T11:30");
        assertThat(plan("2026-11-25T11:40")).isCleared();
        assertThat(plan("2026-11-25T11:41")).isNotCleared().onlyBecauseOf(BATTERY);
    }

    /** Two batteries go with the set, 5 h 40 and 7 h 40: which of them is in it nobody knows, so that the shorter time counts. */
    @Test
    void ofTwoBatteriesTheOneThatRanTheShortestCounts() {
        ferrow.batteryRan("S-201", "A 1", 400, "2026-11-24T09:00")
                .batteryRan("S-201", "A-1", 340, "2026-11-24T11:00")
                .batteryRan("S-201", "A-2", 460, "2026-11-24T11:30");
        assertThat(plan("2026-11-25T11:40")).isCleared();
        assertThat(plan("2026-11-25T11:41")).isNotCleared().onlyBecauseOf(BATTERY);
        ferrow.batteryRan("S-201", "A-1", 420, "2026-11-24T11:40");
        assertThat(plan("2026-11-25T13:00")).as("its newest test").isCleared();
        assertThat(plan("2026-11-25T13:01")).isNotCleared().onlyBecauseOf(BATTERY);
    }

    /** The batteries were numbered since: the one without a number, 2 h, is one of them. */
    @Test
    void aTestWithoutANumberCountsUntilANumberedBatteryIsTested() {
        ferrow.decides("battery.test-interval", "P6M", "2026-01-01")
                .batteryRan("S-201", "A-1", 420, "2026-11-22T11:00")
                .batteryRan("S-201", 120, true, "2026-11-23T11:00");
        assertThat(plan("2026-11-25T08:00")).isCleared();
        assertThat(plan("2026-11-25T08:01")).as("newer than A-1").isNotCleared().onlyBecauseOf(BATTERY);
        ferrow.batteryRan("S-201", "A-2", 340, "2026-11-24T11:00");
        assertThat(plan("2026-11-25T11:40")).isCleared();
        ferrow.on("2027-05-20T12:00")
                .batteryRan("S-201", "A-1", 420, "2027-05-20T09:00")
                .batteryRan("S-201", "A-2", 340, "2027-05-20T10:00");
        Answer later = ferrow.may("Kay", "T4").with("S-201").from("2027-06-01T06:00", "2027-06-01T07:00");
        Assertions.assertThat(later.reasons())
                .filteredOn(reason -> reason.kind() == BATTERY)
                .singleElement()
                .satisfies(reason -> Assertions.assertThat(words.why(reason))
                        .as("each was measured again")
                        .startsWith("Measured on 20 May 2027 the weakest battery, A-2, ran 5"));
    }

    /** The test of A-1 is good until 20 May: A-2, which was tested four days later and ran less long, does not speak for it. */
    @Test
    void oneBatteryWithAnOldTestIsUnknownBesideAnother() {
        ferrow.decides("battery.test-interval", "P6M", "2026-01-01")
                .batteryRan("S-201", "A-1", 420, "2026-11-20T11:00")
                .batteryRan("S-201", "A-2", 340, "2026-11-24T11:00");
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2027-05-20T22:00", "2027-05-21T01:00"))
                .has(BATTERY, Result.UNKNOWN, Why.LAPSED)
                .since(BATTERY, ferrow.instant("2027-05-21T00:00"));
        Answer bothOld = ferrow.may("Kay", "T4").with("S-201").from("2027-05-26T06:00", "2027-05-26T07:00");
        Assertions.assertThat(bothOld.reasons())
                .filteredOn(reason -> reason.kind() == BATTERY)
                .singleElement()
                .satisfies(reason -> Assertions.assertThat(words.why(reason))
                        .startsWith("Battery A-1 was last measured on 20 Nov 2026, too long ago since"))
                .satisfies(reason -> Assertions.assertThat(reason.details())
                        .as("since the first of them was too old")
                        .containsExactly(LocalDate.parse("2026-11-20"), ferrow.instant("2027-05-21T00:00"), "A-1"));
    }

    /** Where the site has its batteries measured, one that was not is unknown, and unknown is not met. */
    @Test
    void anotherBatteryOrAnOldTestIsUnknownWhereTheSiteAsksForTests() {
        ferrow.decides("battery.test-interval", "P6M", "2026-01-01").batteryRan("S-201", 340, true, "2026-11-24T11:00");
        assertThat(plan("2026-11-25T10:00")).isCleared();
        assertThat(ferrow.may("Kay", "T4").with("S-201").from("2027-05-24T22:00", "2027-05-25T01:00"))
                .has(BATTERY, Result.UNKNOWN, Why.LAPSED)
                .since(BATTERY, ferrow.instant("2027-05-25T00:00"));
        PartChange other = new PartChange("B-9", null, "77", LocalDate.parse("2026-01-01"), true, null);
        ferrow.tell(Draft.of(other, ferrow.id("S-201"), ferrow.instant("2026-11-24T11:40"))
                        .scope("battery"))
                .flowChecked("S-201", "190", "FI-1", "2026-11-24T11:50");
        Answer unknown = plan("2026-11-25T10:00");
        assertThat(unknown).has(BATTERY, Result.UNKNOWN, Why.NOT_TESTED);
        Assertions.assertThat(unknown.clearBy())
                .contains(new ClearBy(
                        BATTERY, ClearBy.Action.TEST_BATTERY, org.hoodkeeper.kernel.Role.STOREKEEPER, null));
    }
}
