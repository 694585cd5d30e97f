package org.hoodkeeper.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.calculation.parts.FailureMode;
import org.hoodkeeper.calculation.parts.LookBackWindow.Refusal;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.evidence.AirTests;
import org.hoodkeeper.evidence.Calibrations;
import org.hoodkeeper.evidence.Cleanings;
import org.hoodkeeper.evidence.Corrections;
import org.hoodkeeper.evidence.Defects;
import org.hoodkeeper.evidence.FlowChecks;
import org.hoodkeeper.evidence.Holds;
import org.hoodkeeper.evidence.PreUseChecks;
import org.hoodkeeper.evidence.Recalls;
import org.hoodkeeper.facts.AirTest;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.LookBack.Measure;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.PreUseCheck.Item;
import org.hoodkeeper.facts.Recall;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SupplyId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.reporting.Worn;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** Something failed: since when may it have been so, who wore it meanwhile, and why did no check in between count. */
@SpringBootTest
@Import({StoreStory.class, TestPeople.class})
class LookBackTests {

    @Autowired
    StoreStory story;

    @Autowired
    LookBacks lookBacks;

    @Autowired
    PreUseChecks preUseChecks;

    @Autowired
    FlowChecks flowChecks;

    @Autowired
    Calibrations calibrations;

    @Autowired
    Cleanings cleanings;

    @Autowired
    Defects defects;

    @Autowired
    Holds holds;

    @Autowired
    Recalls recalls;

    @Autowired
    AirTests airTests;

    @Autowired
    Corrections corrections;

    @Autowired
    Ledger ledger;

    @BeforeEach
    void aStore() {
        story.begin("2026-11-25T18:00")
                .worker("Kay", "H30")
                .worker("Lee", "H30")
                .worker("Mo");
        story.set("S-1", "H30", "2026-05-01T09:00");
    }

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    private WorkerId worker(String name) {
        return story.in(() -> story.people().byNumber(story.site().id(), name)).id();
    }

    private InstrumentId instrument(String code) {
        return story.in(() -> story.kit().instrument(story.site().id(), code)).id();
    }

    private RecordId donned(
            String name,
            String label,
            Map<Item, Outcome> items,
            @Nullable String reading,
            @Nullable String by,
            String at) {
        PreUseCheck check = new PreUseCheck(
                items,
                reading == null ? null : new BigDecimal(reading),
                by == null ? null : instrument(by),
                Outcome.PASS,
                null,
                null);
        return story.in(() -> preUseChecks.record(
                        story.author(), story.id(label), worker(name), check, story.instant(at), null))
                .record();
    }

    private static Map<Item, Outcome> all(Outcome outcome) {
        Map<Item, Outcome> items = new EnumMap<>(Item.class);
        for (Item item : Item.values()) {
            items.put(item, outcome);
        }
        return items;
    }

    private static Map<Item, Outcome> allBut(Item one, Outcome outcome) {
        Map<Item, Outcome> items = all(Outcome.PASS);
        items.put(one, outcome);
        return items;
    }

    private RecordId flow(String label, String reading, String by, String at) {
        return story.in(() -> flowChecks.record(
                        story.author(),
                        story.id(label),
                        new FlowChecks.Reading(new BigDecimal(reading), instrument(by), null, null),
                        story.instant(at),
                        null))
                .record();
    }

    /** It read 6 % high as it came in, and was adjusted. */
    private RecordId foundWrong(String code, String at) {
        Calibration wrong = new Calibration(
                Outcome.PASS,
                false,
                BigDecimal.ONE,
                null,
                new BigDecimal("20"),
                new BigDecimal("1013.25"),
                LocalDate.parse("2027-11-24"),
                "C-9",
                new BigDecimal("1.06"));
        return story.in(() -> calibrations.record(story.author(), instrument(code), wrong, story.instant(at), null));
    }

    private LookBacks.Whole of(RecordId record) {
        return story.in(() -> lookBacks.one(story.site().id(), record));
    }

    private List<LookBacks.Whole> since(String from) {
        return story.in(() -> lookBacks.of(story.site().id(), story.instant(from), story.instant("2026-11-26T00:00")));
    }

    private Viewer officer() {
        return new Viewer(story.site().id(), story.viewer().account(), Set.of(Role.OFFICER), null, null);
    }

    private static List<Refusal> refusals(LookBacks.Whole whole) {
        return whole.looked().get(0).window().refused().stream()
                .map(check -> check.refusal())
                .toList();
    }

    private List<String> starts(LookBacks.Whole whole) {
        return whole.wears().stream()
                .map(Worn::from)
                .map(at -> at.atZone(story.site().zone()).toLocalDateTime().toString())
                .toList();
    }

    /** The last check that would have caught it is the flow check of the 20th: what came later measured nothing, or wrongly. */
    @Test
    void lowFlowFoundInUseLooksBackToTheLastFlowThatCounts() {
        story.in(() -> story.kit().addInstrument(story.site().id(), "FM-2"));
        story.calibrated("FM-2", "2026-06-01T09:00", "2027-05-31");
        story.wore("Kay", "S-1", "2026-11-19T06:00", "2026-11-19T10:00");
        flow("S-1", "190", "FM-1", "2026-11-20T07:00");
        story.wore("Kay", "S-1", "2026-11-20T08:00", "2026-11-20T11:30");
        flow("S-1", "188", "FM-2", "2026-11-21T07:00");
        donned("Lee", "S-1", all(Outcome.PASS), null, null, "2026-11-22T06:00");
        donned("Lee", "S-1", all(Outcome.PASS), "185", null, "2026-11-22T06:30");
        story.wore("Lee", "S-1", "2026-11-22T07:00", "2026-11-22T12:00");
        donned("Mo", "S-1", all(Outcome.PASS), "186", "FM-1", "2026-11-23T06:00");
        foundWrong("FM-2", "2026-11-24T09:00");
        story.wore("Kay", "S-1", "2026-11-25T06:00", "2026-11-25T10:20");
        RecordId found = flow("S-1", "150", "FM-1", "2026-11-25T10:00");

        LookBacks.Whole whole = of(found);
        assertThat(whole.looked()).extracting(one -> one.fault().mode()).containsExactly(FailureMode.LOW_FLOW);
        assertThat(whole.from()).isEqualTo(story.instant("2026-11-20T07:00"));
        // somebody wore it when it was found, and came out at 10:20
        assertThat(whole.until()).isEqualTo(story.instant("2026-11-25T10:20"));
        assertThat(refusals(whole))
                .containsExactly(
                        Refusal.NOT_COMPETENT,
                        Refusal.INSTRUMENT_NOT_NAMED,
                        Refusal.NO_READING,
                        Refusal.INSTRUMENT_NOT_VALID);
        assertThat(starts(whole)).containsExactly("2026-11-20T08:00", "2026-11-22T07:00", "2026-11-25T06:00");
        assertThat(whole.people()).containsExactlyInAnyOrder(worker("Kay"), worker("Lee"));
        // 3 h 30 + 5 h + 4 h 20
        assertThat(whole.worn()).isEqualTo(Duration.ofMinutes(770));
        assertThat(whole.state()).isEqualTo(LookBacks.State.UNDECIDED);
    }

    /** A file brings such readings; at the desk the instrument is refused. Too little air by it is looked back from all the same. */
    @Test
    void enoughAirByAnInstrumentThatWasOutOfDateIsNoFailure() {
        story.in(() -> story.kit().addInstrument(story.site().id(), "FM-2"));
        story.calibrated("FM-2", "2026-06-01T09:00", "2026-10-31");
        brought("188", "2026-11-24T15:40");
        assertThat(since("2026-11-01T00:00")).isEmpty();
        RecordId low = brought("150", "2026-11-24T15:45");
        assertThat(since("2026-11-01T00:00")).extracting(LookBacks.Whole::root).containsExactly(low);
    }

    private RecordId brought(String reading, String at) {
        FlowCheck check =
                new FlowCheck(new BigDecimal(reading), instrument("FM-2"), null, null, null, null, null, Outcome.FAIL);
        return story.in(() ->
                        ledger.append(story.author(), List.of(Draft.of(check, story.id("S-1"), story.instant(at)))))
                .records()
                .get(0);
    }

    @Test
    void aWearThatEndsAtTheStartIsOutAndOneThatOverlapsItIsIn() {
        story.wore("Kay", "S-1", "2026-11-20T05:00", "2026-11-20T07:00");
        flow("S-1", "190", "FM-1", "2026-11-20T07:00");
        story.wore("Kay", "S-1", "2026-11-21T06:00", "2026-11-21T07:00");
        RecordId found = flow("S-1", "150", "FM-1", "2026-11-21T07:00");
        story.wore("Lee", "S-1", "2026-11-20T06:59", "2026-11-20T07:01");
        assertThat(starts(of(found))).containsExactly("2026-11-20T06:59", "2026-11-21T06:00");
        assertThat(of(found).until()).isEqualTo(story.instant("2026-11-21T07:00"));
    }

    @Test
    void withoutAnyCheckThatCountsEverythingEverIsInside() {
        story.wore("Kay", "S-1", "2026-06-01T06:00", "2026-06-01T07:00");
        RecordId found = flow("S-1", "150", "FM-1", "2026-11-21T07:00");
        assertThat(of(found).from()).isNull();
        assertThat(of(found).wears()).hasSize(1);
    }

    @Test
    void aSetThatNobodyWoreSinceTheLastGoodCheckAsksForNothing() {
        flow("S-1", "190", "FM-1", "2026-11-20T07:00");
        RecordId found = flow("S-1", "150", "FM-1", "2026-11-21T07:00");
        assertThat(of(found).state()).isEqualTo(LookBacks.State.NOBODY);
    }

    /** Scenario "Clean but failed inspection": from the wearer's check at 06:05; one wearer, T4 5 h 10. */
    @Test
    void aMembraneThatDoesNotSeatLooksBackToTheWearersOwnCheck() {
        story.examined("S-1", "2026-11-20T07:00");
        story.wore("Lee", "S-1", "2026-11-24T06:00", "2026-11-24T09:00");
        donned("Kay", "S-1", all(Outcome.PASS), "190", "FM-1", "2026-11-25T06:05");
        story.wore("Kay", "S-1", "2026-11-25T06:10", "2026-11-25T11:20");
        story.disinfected("S-1", "2026-11-25T15:40");
        flow("S-1", "190", "FM-1", "2026-11-25T15:45");
        RecordId found = story.in(() -> defects.found(
                story.author(),
                story.id("S-1"),
                "exhalation-valve",
                "does not seat",
                story.instant("2026-11-25T15:50"),
                null));
        LookBacks.Whole whole = of(found);
        assertThat(whole.from()).isEqualTo(story.instant("2026-11-25T06:05"));
        assertThat(whole.until()).isEqualTo(story.instant("2026-11-25T15:50"));
        assertThat(whole.people()).containsExactly(worker("Kay"));
        assertThat(whole.worn()).isEqualTo(Duration.ofMinutes(310));
        assertThat(refusals(whole)).containsExactly(Refusal.OTHER_FAULT);
    }

    @Test
    void aWearersCheckThatDidNotLookAtThePlaceDoesNotCount() {
        story.examined("S-1", "2026-11-20T07:00");
        Map<Item, Outcome> items = all(Outcome.PASS);
        items.remove(Item.VISOR);
        donned("Kay", "S-1", items, "190", "FM-1", "2026-11-24T06:00");
        story.wore("Kay", "S-1", "2026-11-24T06:10", "2026-11-24T09:00");
        RecordId found = donned("Lee", "S-1", allBut(Item.VISOR, Outcome.FAIL), "190", "FM-1", "2026-11-25T06:00");
        LookBacks.Whole whole = of(found);
        assertThat(whole.from()).isEqualTo(story.instant("2026-11-20T07:00"));
        assertThat(refusals(whole)).containsExactly(Refusal.ITEM_NOT_LOOKED_AT);
        assertThat(starts(whole)).containsExactly("2026-11-24T06:10");
    }

    @Test
    void aFaultOfAPartIsNotOlderThanThePart() {
        story.examined("S-1", "2026-11-01T07:00");
        story.wore("Lee", "S-1", "2026-11-20T06:00", "2026-11-20T09:00");
        story.fitted("S-1", "visor", "V-20", "V-77", "2026-11-21T07:00");
        story.wore("Kay", "S-1", "2026-11-22T06:00", "2026-11-22T09:00");
        RecordId found = story.in(() -> defects.found(
                story.author(), story.id("S-1"), "visor", "crazed", story.instant("2026-11-22T10:00"), null));
        assertThat(of(found).from()).isEqualTo(story.instant("2026-11-21T07:00"));
        assertThat(starts(of(found))).containsExactly("2026-11-22T06:00");
    }

    @Test
    void aFaceThatDoesNotSealIsNoFaultOfTheSet() {
        RecordId face =
                donned("Lee", "S-1", allBut(Item.SKIN_AT_SEAL, Outcome.FAIL), "190", "FM-1", "2026-11-25T06:00");
        assertThatThrownBy(() -> of(face)).isInstanceOf(NotFound.class);
        assertThat(since("2026-11-01T00:00")).isEmpty();
    }

    /** An instrument is found wrong: every set that it had passed is looked back at, and only a new measurement clears one. */
    @Test
    void anInstrumentFoundWrongOpensALookBackAndNothingIsPassedByIt() {
        story.set("S-2", "H30", "2026-05-01T09:00").set("S-3", "H30", "2026-05-01T09:00");
        story.in(() -> story.kit().addInstrument(story.site().id(), "FM-2"));
        story.calibrated("FM-2", "2026-06-01T09:00", "2027-05-31");
        flow("S-1", "190", "FM-2", "2026-10-01T07:00");
        flow("S-2", "190", "FM-2", "2026-10-01T07:30");
        flow("S-3", "190", "FM-1", "2026-10-01T07:45");
        story.wore("Kay", "S-1", "2026-10-02T06:00", "2026-10-02T10:00");
        story.wore("Lee", "S-2", "2026-10-02T06:00", "2026-10-02T10:00");
        story.wore("Mo", "S-3", "2026-10-02T06:00", "2026-10-02T10:00");
        flow("S-2", "190", "FM-1", "2026-10-03T07:00");
        story.wore("Lee", "S-2", "2026-10-04T06:00", "2026-10-04T10:00");
        RecordId found = foundWrong("FM-2", "2026-11-24T09:00");

        LookBacks.Whole whole = of(found);
        assertThat(whole.from()).isEqualTo(story.instant("2026-06-01T09:00"));
        assertThat(whole.until()).isEqualTo(story.instant("2026-11-24T09:00"));
        assertThat(whole.exposed())
                .extracting(LookBacks.Exposed::set)
                .containsExactlyInAnyOrder(story.id("S-1"), story.id("S-2"));
        assertThat(starts(whole)).containsExactly("2026-10-02T06:00", "2026-10-02T06:00");
        assertThat(whole.exposed())
                .filteredOn(one -> one.set().equals(story.id("S-1")))
                .singleElement()
                .satisfies(one -> assertThat(one.again()).isNull());
        assertThat(whole.exposed())
                .filteredOn(one -> one.set().equals(story.id("S-2")))
                .singleElement()
                .satisfies(one -> {
                    assertThat(one.until()).isEqualTo(story.instant("2026-10-03T07:00"));
                    assertThat(one.again().result()).isEqualTo(MeasuredFlow.Result.PASSED);
                });

        // a low flow found on S-1 now looks back beyond the reading of the wrong instrument
        RecordId low = flow("S-1", "150", "FM-1", "2026-11-25T07:00");
        assertThat(refusals(of(low))).containsExactly(Refusal.INSTRUMENT_NOT_VALID);
        assertThat(of(low).from()).isNull();
        assertThat(since("2026-11-01T00:00"))
                .extracting(LookBacks.Whole::state)
                .containsExactly(LookBacks.State.UNDECIDED, LookBacks.State.UNDECIDED);
    }

    @Test
    void aWashThatWasTooWeakLooksBackToTheLastThatCounts() {
        story.disinfected("S-1", "2026-11-20T06:30");
        story.wore("Kay", "S-1", "2026-11-20T08:00", "2026-11-20T09:00");
        story.wiped("S-1", "2026-11-20T09:10");
        Cleaning weak = new Cleaning(
                Cleaning.Method.WASH_AND_DISINFECT,
                "CL-50",
                new BigDecimal("40"),
                "ppm available chlorine",
                120,
                new BigDecimal("30"));
        RecordId washed = story.in(
                () -> cleanings.record(story.author(), story.id("S-1"), weak, story.instant("2026-11-21T06:30"), null));
        story.wore("Lee", "S-1", "2026-11-21T08:00", "2026-11-21T09:00");
        story.disinfected("S-1", "2026-11-22T06:30");
        story.wore("Lee", "S-1", "2026-11-22T08:00", "2026-11-22T09:00");
        LookBacks.Whole whole = of(washed);
        assertThat(whole.from()).isEqualTo(story.instant("2026-11-20T06:30"));
        assertThat(whole.until()).isEqualTo(story.instant("2026-11-21T09:00"));
        assertThat(refusals(whole)).containsExactly(Refusal.WIPE_ONLY);
        assertThat(starts(whole)).containsExactly("2026-11-20T08:00", "2026-11-21T08:00");
    }

    @Test
    void aWrongPartLooksBackToItsFittingAndNoFurther() {
        story.wore("Kay", "S-1", "2026-11-19T06:00", "2026-11-19T09:00");
        RecordId fitted = story.fitted("S-1", "visor", "V-99", null, "2026-11-20T07:00");
        story.wore("Kay", "S-1", "2026-11-20T08:00", "2026-11-20T09:00");
        story.fitted("S-1", "visor", "V-20", null, "2026-11-21T07:00");
        story.wore("Kay", "S-1", "2026-11-21T08:00", "2026-11-21T09:00");
        LookBacks.Whole whole = of(fitted);
        assertThat(whole.from()).isEqualTo(story.instant("2026-11-20T07:00"));
        assertThat(whole.until()).isEqualTo(story.instant("2026-11-21T07:00"));
        assertThat(starts(whole)).containsExactly("2026-11-20T08:00");
    }

    @Test
    void aRecalledLotLooksBackOverEverySetThatEverHadIt() {
        story.set("S-2", "H30", "2026-05-01T09:00");
        story.fitted("S-1", "hose", "HZ-7", "H-2409B", "2026-06-12T10:00");
        story.wore("Kay", "S-1", "2026-06-13T08:00", "2026-06-13T12:00");
        story.fitted("S-1", "hose", "HZ-7", "H-2505A", "2026-10-03T12:00");
        story.wore("Kay", "S-1", "2026-10-04T08:00", "2026-10-04T12:00");
        story.fitted("S-2", "hose", "HZ-7", "H-2409B", "2026-07-01T10:00");
        story.wore("Lee", "S-2", "2026-07-02T08:00", "2026-07-02T12:00");
        Recall recall = new Recall(
                null, "hose", "HZ-7", "H-2409B", Set.of(), null, null, Recall.Remedy.STOP_NOW, null, "N-17", "cracks");
        RecordId notice =
                story.in(() -> recalls.record(story.author(), recall, story.instant("2026-11-25T09:00"), null));
        LookBacks.Whole whole = of(notice);
        assertThat(starts(whole)).containsExactly("2026-06-13T08:00", "2026-07-02T08:00");
        assertThat(whole.people()).containsExactlyInAnyOrder(worker("Kay"), worker("Lee"));
        assertThat(whole.worn()).isEqualTo(Duration.ofHours(8));
    }

    /** A look at carbon monoxide alone would not have caught oil in the air. */
    @Test
    void badAirLooksBackToTheLastGoodTestOverEverySetOnTheSupply() {
        SupplyId supply = story.in(() -> story.kit().addSupply(story.site().id(), "C-1"));
        SetData fed = new SetData(
                story.in(() -> story.kit().model(story.site().id(), "H30")).id(), "M", "R1", supply, false, null, null);
        story.in(() -> story.kit().addSet(story.author(), "A-1", fed, story.instant("2026-05-01T09:00")));
        story.wore("Kay", "A-1", "2026-08-01T08:00", "2026-08-01T12:00");
        air(supply, Outcome.PASS, "2026-08-12T09:00");
        story.wore("Kay", "A-1", "2026-09-01T08:00", "2026-09-01T12:00");
        story.wore("Lee", "S-1", "2026-09-01T08:00", "2026-09-01T12:00");
        air(
                supply,
                new AirTest(
                        Outcome.PASS,
                        "CO alone",
                        null,
                        BigDecimal.ONE,
                        null,
                        null,
                        null,
                        "T. Tester",
                        null,
                        null,
                        null),
                "2026-10-12T09:00");
        RecordId bad = air(supply, Outcome.FAIL, "2026-11-12T09:00");
        LookBacks.Whole whole = of(bad);
        assertThat(whole.from()).isEqualTo(story.instant("2026-08-12T09:00"));
        assertThat(starts(whole)).containsExactly("2026-09-01T08:00");
        assertThat(whole.exposed())
                .singleElement()
                .satisfies(one -> assertThat(one.set()).isEqualTo(story.id("A-1")));
    }

    private RecordId air(SupplyId supply, Outcome outcome, String at) {
        AirTest test = new AirTest(
                outcome,
                "own edition",
                new BigDecimal("20.9"),
                new BigDecimal("1"),
                new BigDecimal("420"),
                new BigDecimal("0.1"),
                new BigDecimal("-14"),
                "T. Tester",
                null,
                null,
                null);
        return air(supply, test, at);
    }

    private RecordId air(SupplyId supply, AirTest test, String at) {
        return story.in(() -> airTests.record(story.author(), supply, test, story.instant(at), null));
    }

    @Test
    void theOfficerDecidesAndClosesAndWhatComesToLightLaterOpensItAgain() {
        flow("S-1", "190", "FM-1", "2026-11-20T07:00");
        story.wore("Kay", "S-1", "2026-11-20T08:00", "2026-11-20T09:00");
        RecordId found = flow("S-1", "150", "FM-1", "2026-11-21T07:00");
        assertThatThrownBy(() -> story.in(() -> lookBacks.close(officer(), found, "told her")))
                .hasMessageContaining("lookBack.undecided");
        assertThatThrownBy(() -> story.in(() -> lookBacks.decide(officer(), found, Set.of(), " ")))
                .hasMessageContaining("lookBack.reason.missing");
        story.in(() -> lookBacks.decide(officer(), found, Set.of(Measure.TELL_WEARERS), "one hour at T1"));
        assertThat(of(found).state()).isEqualTo(LookBacks.State.DECIDED);
        story.in(() -> lookBacks.close(officer(), found, "told on the 25th"));
        assertThat(of(found).state()).isEqualTo(LookBacks.State.CLOSED);
        assertThatThrownBy(() -> story.in(() -> lookBacks.close(officer(), found, "again")))
                .hasMessageContaining("lookBack.closed");

        story.wore("Lee", "S-1", "2026-11-20T10:00", "2026-11-20T11:00");
        assertThat(of(found).state()).isEqualTo(LookBacks.State.CHANGED);
        assertThat(of(found).wears()).hasSize(2);
    }

    /** One wear as before, but it was Lee who wore it: Lee was told of nothing yet. */
    @Test
    void aWearThatTurnsOutToBeSomebodyElsesOpensItAgain() {
        flow("S-1", "190", "FM-1", "2026-11-20T07:00");
        story.wore("Kay", "S-1", "2026-11-20T08:00", "2026-11-20T09:00");
        RecordId found = flow("S-1", "150", "FM-1", "2026-11-21T07:00");
        story.in(() -> lookBacks.decide(officer(), found, Set.of(Measure.TELL_WEARERS), "one hour at T1"));
        story.in(() -> lookBacks.close(officer(), found, "told on the 25th"));
        Worn kays = of(found).wears().get(0);
        story.on("2026-11-25T18:10");
        Draft lees = Draft.of(new Wear(kays.task(), Wear.Step.WHOLE), worker("Lee"), kays.from())
                .item(story.id("S-1"))
                .until(kays.until());
        story.in(() -> corrections.correct(officer(), kays.entry(), lees, "the wrong name"));
        assertThat(of(found).people()).containsExactly(worker("Lee"));
        assertThat(of(found).state()).isEqualTo(LookBacks.State.CHANGED);
    }

    @Test
    void aFailureThatIsCorrectedAsksNoMoreButKeepsWhatWasDecided() {
        story.wore("Kay", "S-1", "2026-11-20T08:00", "2026-11-20T09:00");
        RecordId found = flow("S-1", "150", "FM-1", "2026-11-21T07:00");
        story.in(() -> lookBacks.decide(officer(), found, Set.of(), "to be looked at"));
        story.in(() -> corrections.withdraw(officer(), found, "it was another set"));
        assertThat(of(found).holds()).isFalse();
        assertThat(of(found).steps()).hasSize(1);
        assertThat(since("2026-11-01T00:00")).isEmpty();
    }

    @Test
    void whatIsSharedWithOtherSetsIsNamed() {
        story.set("S-2", "H30", "2026-05-01T09:00").set("S-3", "H30", "2026-05-01T09:00");
        story.examined("S-1", "2026-11-20T07:00").examined("S-2", "2026-11-20T08:00");
        story.fitted("S-1", "hose", "HZ-7", "H-1", "2026-11-20T10:00");
        story.fitted("S-3", "hose", "HZ-7", "H-1", "2026-11-20T10:00");
        RecordId found = flow("S-1", "150", "FM-1", "2026-11-21T07:00");
        List<LookBacks.Shared> shared =
                story.in(() -> lookBacks.shared(story.site().id(), of(found)));
        assertThat(shared)
                .extracting(LookBacks.Shared::sort, LookBacks.Shared::what, LookBacks.Shared::sets)
                .containsExactlyInAnyOrder(
                        org.assertj.core.groups.Tuple.tuple(
                                LookBacks.Shared.Sort.LOT, List.of("hose", "HZ-7", "H-1"), Set.of(story.id("S-3"))),
                        org.assertj.core.groups.Tuple.tuple(
                                LookBacks.Shared.Sort.INSTRUMENT, List.of(), Set.of(story.id("S-2"))),
                        org.assertj.core.groups.Tuple.tuple(
                                LookBacks.Shared.Sort.EXAMINER, List.of("E. Examiner"), Set.of(story.id("S-2"))));
    }

    @Test
    void aYearOfDatesHoldsAtItsEdges() {
        RecordId found = flow("S-1", "150", "FM-1", "2026-11-21T07:00");
        Instant at = story.instant("2026-11-21T07:00");
        story.in(() -> {
            assertThat(lookBacks.of(story.site().id(), at, at.plusMillis(1))).hasSize(1);
            assertThat(lookBacks.of(story.site().id(), at.minusSeconds(9), at)).isEmpty();
            return found;
        });
    }

    /** The certificate came late: the instrument had read 20 % high since the 18th, and the flow of the 20th was too low. */
    @Test
    void aCalibrationToldLateTurnsAFlowThatHadPassedIntoAFailure() {
        story.wore("Kay", "S-1", "2026-11-19T06:00", "2026-11-19T10:00");
        RecordId passed = flow("S-1", "190", "FM-1", "2026-11-20T07:00");
        assertThat(since("2026-11-01T00:00")).isEmpty();
        story.on("2026-11-25T18:10");
        Calibration late = new Calibration(
                Outcome.PASS,
                true,
                new BigDecimal("1.2"),
                null,
                new BigDecimal("20"),
                new BigDecimal("1013.25"),
                LocalDate.parse("2027-11-17"),
                "C-8",
                null);
        story.in(() ->
                calibrations.record(story.author(), instrument("FM-1"), late, story.instant("2026-11-18T09:00"), null));
        assertThat(since("2026-11-01T00:00")).extracting(LookBacks.Whole::root).containsExactly(passed);
    }

    /** It was dropped at seven and put aside; that was told after a set had been measured with it at eight. */
    @Test
    void aReadingTakenWhileTheInstrumentWasOnHoldProvesNothing() {
        story.examined("S-1", "2026-11-20T07:00");
        story.disinfected("S-1", "2026-11-24T07:30");
        RecordId passed = flow("S-1", "190", "FM-1", "2026-11-24T08:00");
        RecordId hold = story.in(() -> holds.place(
                story.author(),
                instrument("FM-1"),
                Hold.Why.QUARANTINE,
                "dropped",
                story.instant("2026-11-24T07:00"),
                null));
        assertThat(story.shelf("S-1", "2026-11-25T18:00").readiness().barring())
                .extracting(reason -> reason.kind() + " " + reason.why())
                .containsExactly("FLOW NOT_ACCEPTED");
        RecordId low = flowWith("FM-2", "150", "2026-11-25T07:00");
        assertThat(of(low).looked().get(0).window().proof().record()).isNotEqualTo(passed);
        assertThat(refusals(of(low))).containsExactly(Refusal.INSTRUMENT_NOT_VALID);

        // released before eight after all: then the reading stands
        story.in(() -> holds.release(
                story.author(), instrument("FM-1"), hold, "checked, whole", story.instant("2026-11-24T07:30"), null));
        assertThat(of(low).looked().get(0).window().proof().record()).isEqualTo(passed);
    }

    private RecordId flowWith(String code, String reading, String at) {
        story.in(() -> story.kit().addInstrument(story.site().id(), code));
        story.calibrated(code, "2026-06-01T09:00", "2027-05-31");
        return flow("S-1", reading, code, at);
    }
}
