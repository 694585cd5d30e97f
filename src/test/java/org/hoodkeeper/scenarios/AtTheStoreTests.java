package org.hoodkeeper.scenarios;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.evidence.Cleanings;
import org.hoodkeeper.evidence.Defects;
import org.hoodkeeper.evidence.Examinations;
import org.hoodkeeper.evidence.FlowChecks;
import org.hoodkeeper.evidence.GuidedWorks;
import org.hoodkeeper.evidence.Holds;
import org.hoodkeeper.evidence.PartChanges;
import org.hoodkeeper.evidence.PreUseChecks;
import org.hoodkeeper.evidence.Recalls;
import org.hoodkeeper.evidence.Stock;
import org.hoodkeeper.evidence.Washes;
import org.hoodkeeper.facts.Cleaning;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.Examination;
import org.hoodkeeper.facts.Guide;
import org.hoodkeeper.facts.GuidedWork;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.Recall;
import org.hoodkeeper.facts.StockReceipt;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.facts.WashStep;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.hoodkeeper.rules.RequirementKind;
import org.hoodkeeper.store.Bench;
import org.hoodkeeper.store.NotCleared;
import org.hoodkeeper.store.Readying;
import org.hoodkeeper.store.RecallBook;
import org.hoodkeeper.store.SetStage;
import org.hoodkeeper.store.SetStep;
import org.hoodkeeper.store.ShelfSet;
import org.hoodkeeper.store.StoreStory;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** Days at the store, told through its doors: what the trade would refuse is refused, what happened is a finding. */
@SpringBootTest
@Import({TestPeople.class, StoreStory.class})
class AtTheStoreTests {

    @Autowired
    StoreStory story;

    @Autowired
    Bench bench;

    @Autowired
    Cleanings cleanings;

    @Autowired
    Defects defects;

    @Autowired
    Examinations examinations;

    @Autowired
    FlowChecks flowChecks;

    @Autowired
    GuidedWorks works;

    @Autowired
    Holds holds;

    @Autowired
    PartChanges partChanges;

    @Autowired
    PreUseChecks preUseChecks;

    @Autowired
    Recalls recalls;

    @Autowired
    RecallBook recallBook;

    @Autowired
    Stock stock;

    @Autowired
    Readying readying;

    @Autowired
    Washes washes;

    @Autowired
    History history;

    @Autowired
    KnowledgeClock clock;

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    // --- the scenarios

    /** Two officers give the model a step each, the second while the first is still writing: neither step replaces the other. */
    @Test
    void twoStepsOfTheModelsOwnThatAreTakenAtOnceAreTwo() throws Exception {
        story.begin("2026-11-25T05:00").worker("Fay", "H30").set("S-114", "H30", "2026-11-02T09:00");
        CountDownLatch written = new CountDownLatch(1);
        CountDownLatch done = new CountDownLatch(1);
        CompletableFuture<RecordId> first = CompletableFuture.supplyAsync(() -> story.in(() -> {
            RecordId step = ownStep("Press the red button: it springs back.");
            written.countDown();
            // the second must wait for this one, and so is not done in that time
            await(done, 1);
            return step;
        }));
        assertThat(await(written, 30)).isTrue();
        CompletableFuture<RecordId> second = CompletableFuture.supplyAsync(() -> {
            RecordId step = story.in(() -> ownStep("Count the screws."));
            done.countDown();
            return step;
        });
        List<RecordId> told = List.of(first.get(30, TimeUnit.SECONDS), second.get(30, TimeUnit.SECONDS));
        assertThat(story.in(() -> told.stream()
                        .map(id -> history.find(story.site().id(), id, clock.now())
                                .told()
                                .scope())
                        .toList()))
                .containsExactly("INSPECTION.OWN.1", "INSPECTION.OWN.2");
    }

    private RecordId ownStep(String words) {
        return works.add(
                story.author(),
                story.kit().model(story.site().id(), "H30").id(),
                "INSPECTION",
                words,
                null,
                "instructions, page 14",
                story.instant("2026-11-25T05:00"));
    }

    private static boolean await(CountDownLatch latch, int seconds) {
        try {
            return latch.await(seconds, TimeUnit.SECONDS);
        } catch (InterruptedException stopped) {
            throw new AssertionError(stopped);
        }
    }

    /** "Kit swapped mid-shift": wear on S-114 to 10:20, on S-098 from 10:49; a recall on S-098 touches only the second. */
    @Test
    void aRecallTouchesOnlyTheWearOfTheSetThatWasSwappedIn() {
        story.begin("2026-11-25T05:00")
                .worker("Fay", "H30")
                .set("S-114", "H30", "2026-11-02T09:00")
                .set("S-098", "H30", "2026-11-02T09:00");
        story.fitted("S-114", "hose", "HZ-7", "H-1", "2026-11-20T12:00");
        story.fitted("S-098", "hose", "HZ-7", "H-2", "2026-11-20T12:00");
        story.upToDate("S-114", "2026-11-20T13:00").upToDate("S-098", "2026-11-20T13:00");
        story.on("2026-11-25T06:12").issue("S-114", "Fay");
        story.on("2026-11-25T10:25").wore("Fay", "S-114", "2026-11-25T06:12", "2026-11-25T10:20");
        story.held("S-114", Hold.Why.OTHER, "2026-11-25T10:24");
        story.on("2026-11-25T10:41").issue("S-098", "Fay");
        story.on("2026-11-25T13:00").wore("Fay", "S-098", "2026-11-25T10:49", "2026-11-25T12:30");

        RecordId recall = recalled("hose", "HZ-7", "H-2", "2026-11-25T15:00");

        RecallBook.Whole whole = story.in(() -> recallBook.one(story.site().id(), recall, clock.now()));
        assertThat(whole.left()).extracting(has -> has.set().label()).containsExactly("S-098");
        assertThat(whole.inHands()).isEqualTo(1);
        assertThat(held("S-098")).containsExactly(Hold.Why.RECALL);
        // S-114 is held for its alarm, not for the recall, and nobody has said that it came back
        assertThat(held("S-114")).containsExactly(Hold.Why.OTHER);
        assertThat(story.shelf("S-114", "2026-11-25T15:00").state()).isEqualTo(ShelfSet.State.OUT);
    }

    /** "Clean but failed inspection": the membrane will not seat, a new one of lot M-77 is fitted, 181 of 170 L/min, ready. */
    @Test
    void aCleanSetThatFailsItsInspectionIsHeldUntilItIsMendedAndMeasured() {
        story.begin("2026-11-25T05:00")
                .model(
                        "H21",
                        "TH2",
                        "170",
                        new ModelData.Slot("visor", Set.of("V-20"), null),
                        new ModelData.Slot("exhalation-valve", Set.of("M-5"), null))
                .worker("Kay", "H21")
                .set("S-150", "H21", "2026-11-02T09:00")
                .set("S-151", "H21", "2026-11-02T09:00")
                .upToDate("S-150", "2026-11-20T13:00")
                .upToDate("S-151", "2026-11-20T13:00")
                .on("2026-11-25T06:00");
        story.issue("S-150", "Kay");
        story.on("2026-11-25T12:00").wore("Kay", "S-150", "2026-11-25T06:10", "2026-11-25T11:20");
        story.takeBack("S-150", true, "2026-11-25T11:30");
        story.on("2026-11-25T15:41").disinfected("S-150", "2026-11-25T15:40");
        story.on("2026-11-25T15:46").flowChecked("S-150", "181", "2026-11-25T15:45");
        assertThat(ready("2026-11-25T15:46")).isEqualTo(2);

        story.on("2026-11-25T15:51");
        GuidedWork looked = new GuidedWork(
                Guide.INSPECTION,
                Map.of("VISOR", Outcome.PASS, "EXHALATION_VALVE", Outcome.FAIL),
                "the membrane will not seat");
        story.in(() -> works.record(
                story.author(),
                story.id("S-150"),
                looked,
                null,
                Map.of("VISOR", "visor", "EXHALATION_VALVE", "exhalation-valve"),
                story.instant("2026-11-25T15:50")));
        ShelfSet held = story.shelf("S-150", "2026-11-25T15:51");
        assertThat(held.state()).isEqualTo(ShelfSet.State.BLOCKED);
        assertThat(barring(held)).containsExactly(RequirementKind.KIT_HOLD, RequirementKind.FLOW);
        assertThat(ready("2026-11-25T15:51")).isEqualTo(1);
        assertThat(SetStep.next(held)).contains(SetStep.MEND).doesNotContain(SetStep.ISSUE);

        story.on("2026-11-25T16:11");
        story.fitted("S-150", "exhalation-valve", "M-5", "M-77", "2026-11-25T16:05");
        story.in(() -> defects.mended(
                story.author(), openDefect("S-150"), "new membrane", story.instant("2026-11-25T16:10"), null));
        ShelfSet mended = story.shelf("S-150", "2026-11-25T16:11");
        assertThat(barring(mended)).containsExactly(RequirementKind.FLOW);
        assertThat(SetStep.next(mended)).first().isEqualTo(SetStep.FLOW_CHECK);
        story.on("2026-11-25T16:25").flowChecked("S-150", "181", "2026-11-25T16:25");
        assertThat(story.shelf("S-150", "2026-11-25T16:25").state()).isEqualTo(ShelfSet.State.READY);
        assertThat(ready("2026-11-25T16:25")).isEqualTo(2);
    }

    private void twoSetsForKayAndLee() {
        story.begin("2026-11-25T05:00")
                .worker("Kay", "H20")
                .worker("Lee", "H20")
                .set("S-201", "H20", "2026-11-02T09:00")
                .set("S-207", "H20", "2026-11-02T09:00")
                .upToDate("S-201", "2026-11-20T13:00")
                .upToDate("S-207", "2026-11-20T13:00")
                .on("2026-11-25T13:00");
    }

    /** Another set that somebody took meanwhile is none, and is one again once it is back. */
    @Test
    void onlyASetThatNobodyHasIsAnotherWayToWork() {
        twoSetsForKayAndLee();
        story.held("S-201", Hold.Why.OTHER, "2026-11-25T12:00");
        assertThat(refusal("S-201", "Lee").alternatives())
                .extracting(other -> other.set())
                .containsExactly(story.id("S-207"));
        story.issue("S-207", "Kay");
        assertThat(refusal("S-201", "Lee").alternatives()).isEmpty();
        story.on("2026-11-25T14:00").takeBack("S-207", false, "2026-11-25T13:30");
        story.on("2026-11-25T14:10");
        assertThat(refusal("S-201", "Lee").alternatives())
                .extracting(other -> other.set())
                .containsExactly(story.id("S-207"));
    }

    /** "Shared kit": wiped is not disinfected; wash 10, contact 2, rinse 5, dry 90 and test 8 make 20:00 of 18:05. */
    @Test
    void aSharedSetIsRefusedUntilItIsDisinfectedAndTheStoreSaysWhenThatCanBe() {
        twoSetsForKayAndLee();
        story.issue("S-201", "Kay");
        story.on("2026-11-25T17:58").wore("Kay", "S-201", "2026-11-25T13:10", "2026-11-25T17:50");
        story.wiped("S-201", "2026-11-25T17:55");
        story.takeBack("S-201", true, "2026-11-25T17:57");
        story.on("2026-11-25T18:05");
        Answer no = refusal("S-201", "Lee");
        assertThat(no.of(RequirementKind.CLEAN)).extracting(Reason::why).containsExactly(Why.WIPED_ONLY);
        assertThat(no.alternatives()).extracting(other -> other.set()).containsExactly(story.id("S-207"));
        assertThat(earliest("S-201", "2026-11-25T18:05")).isEqualTo(story.instant("2026-11-25T20:00"));

        UUID batch = story.in(
                () -> washes.begin(story.author(), List.of(story.id("S-201")), story.instant("2026-11-25T18:05")));
        assertThat(refusal("S-201", "Lee").of(RequirementKind.CLEAN))
                .extracting(Reason::why)
                .containsExactly(Why.IN_WASH);
        wash(batch, WashStep.Step.WASHED, "2026-11-25T18:20");
        assertThat(earliest("S-201", "2026-11-25T18:20"))
                .as("five minutes late from here on")
                .isEqualTo(story.instant("2026-11-25T20:05"));
        story.held("S-201", Hold.Why.OTHER, "2026-11-25T18:20");
        assertThat(earliest("S-201", "2026-11-25T18:20")).isNull();
    }

    private java.time.Instant earliest(String label, String at) {
        return story.in(() -> readying.earliest(story.site().id(), story.shelf(label, at), story.instant(at)));
    }

    /** "Right look, wrong part": a visor of another model bars in spite of 188 L/min; the right one by anybody waits. */
    @Test
    void aWrongVisorBarsInSpiteOfItsFlowAndTheRightOneWaitsForACompetentCheck() {
        story.begin("2026-11-25T08:00").set("S-166", "H20", "2026-11-02T09:00").upToDate("S-166", "2026-11-20T13:00");
        story.fitted("S-166", "visor", "V-OTHER", null, "2026-11-25T07:00");
        story.flowChecked("S-166", "188", "2026-11-25T07:10");
        assertThat(reasons("S-166", "2026-11-25T08:00")).containsExactly(Why.PART_NOT_APPROVED);

        story.on("2026-11-25T09:00");
        PartChange byAnybody = new PartChange("V-20", null, null, null, false, "A. Body");
        story.in(() -> partChanges.record(
                story.author(), story.id("S-166"), "visor", byAnybody, story.instant("2026-11-25T08:30"), null));
        story.flowChecked("S-166", "188", "2026-11-25T08:40");
        assertThat(reasons("S-166", "2026-11-25T09:00")).containsExactly(Why.FITTED_UNTRAINED);

        story.on("2026-11-25T10:00").examined("S-166", "2026-11-25T09:30");
        assertThat(story.shelf("S-166", "2026-11-25T10:00").state()).isEqualTo(ShelfSet.State.READY);
    }

    /** Low flow found in use: the float falls short at a check in the shift. Out at once, for everybody, until measured. */
    @Test
    void aFlowThatIsLowInUseBringsTheWearerOutAndTheSetBackHeld() {
        story.begin("2026-11-25T05:00")
                .worker("Kay", "H20")
                .worker("Lee", "H20")
                .set("S-098", "H20", "2026-11-02T09:00")
                .upToDate("S-098", "2026-11-20T13:00")
                .on("2026-11-25T06:00");
        story.issue("S-098", "Kay");
        story.on("2026-11-25T10:01").flowChecked("S-098", "162", "2026-11-25T10:00");
        ShelfSet inUse = story.shelf("S-098", "2026-11-25T10:01");
        assertThat(inUse.state()).isEqualTo(ShelfSet.State.OUT);
        assertThat(inUse.isHeld(Hold.Why.DEFECT)).isTrue();
        assertThat(barring(inUse)).contains(RequirementKind.KIT_HOLD, RequirementKind.FLOW);
        assertThat(SetStep.next(inUse)).first().isEqualTo(SetStep.RETURN);

        story.on("2026-11-25T10:30").takeBack("S-098", true, "2026-11-25T10:20");
        Answer no = refusal("S-098", "Lee");
        assertThat(no.reasons().stream().filter(reason -> reason.result().bars()))
                .extracting(Reason::kind)
                .contains(RequirementKind.KIT_HOLD, RequirementKind.FLOW, RequirementKind.CLEAN);
        // a good reading alone does not lift the hold that the bad one placed
        story.on("2026-11-25T12:00")
                .disinfected("S-098", "2026-11-25T11:00")
                .flowChecked("S-098", "190", "2026-11-25T11:50");
        assertThat(barring(story.shelf("S-098", "2026-11-25T12:00"))).containsExactly(RequirementKind.KIT_HOLD);
    }

    /** The wearer's own check says so too: 29 CFR 1910.134(h)(4); COSHH regulation 9(5). */
    @Test
    void aWearersFailedFlowTakesTheSetFromEverybody() {
        story.begin("2026-11-25T05:00")
                .worker("Kay", "H20")
                .set("S-098", "H20", "2026-11-02T09:00")
                .upToDate("S-098", "2026-11-20T13:00")
                .on("2026-11-25T06:05");
        Map<PreUseCheck.Item, Outcome> items = new EnumMap<>(PreUseCheck.Item.class);
        items.put(PreUseCheck.Item.HOSE, Outcome.PASS);
        items.put(PreUseCheck.Item.FLOW, Outcome.FAIL);
        PreUseCheck low = new PreUseCheck(items, new BigDecimal("160"), null, null, 100, null);
        story.in(() -> preUseChecks.record(
                story.author(),
                story.id("S-098"),
                story.people().byNumber(story.site().id(), "Kay").id(),
                low,
                story.instant("2026-11-25T06:05"),
                null));
        assertThat(held("S-098")).containsExactly(Hold.Why.DEFECT);
        assertThat(story.shelf("S-098", "2026-11-25T06:05").state()).isEqualTo(ShelfSet.State.BLOCKED);
    }

    /** Part age: 24 months from manufacture, good to the end of its last day; an age that nobody knows is no age. */
    @Test
    void aPartIsGoodUpToAndIncludingTheLastDayOfItsLifeAndAnUnknownAgeIsNot() {
        story.begin("2026-11-20T08:00")
                .model("H22", "TH2", "170", new ModelData.Slot("hose", Set.of("HZ-7"), 24))
                .set("S-300", "H22", "2026-11-02T09:00")
                .set("S-301", "H22", "2026-11-02T09:00");
        made("S-300", "2024-11-25", "2026-11-20T07:00");
        made("S-301", null, "2026-11-20T07:00");
        story.upToDate("S-300", "2026-11-20T07:30").upToDate("S-301", "2026-11-20T07:30");
        assertThat(reasons("S-301", "2026-11-20T08:00")).containsExactly(Why.PART_AGE_UNKNOWN);
        assertThat(SetStep.next(story.shelf("S-301", "2026-11-20T08:00")))
                .first()
                .isEqualTo(SetStep.CHANGE_PART);
        assertThat(story.shelf("S-300", "2026-11-25T23:58").state()).isEqualTo(ShelfSet.State.READY);
        assertThat(reasons("S-300", "2026-11-26T00:00")).containsExactly(Why.PART_OVER_AGE);

        story.on("2026-11-26T10:00");
        made("S-300", "2026-03-01", "2026-11-26T09:00");
        story.flowChecked("S-300", "184", "2026-11-26T09:30");
        assertThat(story.shelf("S-300", "2026-11-26T10:00").state()).isEqualTo(ShelfSet.State.READY);
    }

    // --- the life of a set

    @Test
    void aSetGoesThroughItsLifeAndEachPlaceFollowsFromWhatIsOnRecord() {
        story.begin("2026-11-20T08:00").worker("Kay", "H20").set("S-098", "H20", "2026-11-02T09:00");
        assertThat(stage("2026-11-20T08:00")).isEqualTo(SetStage.AWAITING_EXAMINATION);
        story.upToDate("S-098", "2026-11-20T08:00");
        assertThat(stage("2026-11-20T08:00")).isEqualTo(SetStage.READY);
        story.on("2026-11-20T09:00").issue("S-098", "Kay");
        assertThat(stage("2026-11-20T09:00")).isEqualTo(SetStage.ISSUED);
        story.on("2026-11-20T13:00").wore("Kay", "S-098", "2026-11-20T09:10", "2026-11-20T12:00");
        story.takeBack("S-098", true, "2026-11-20T12:30");
        assertThat(stage("2026-11-20T13:00")).isEqualTo(SetStage.RETURNED);

        story.on("2026-11-20T13:10");
        UUID batch = story.in(
                () -> washes.begin(story.author(), List.of(story.id("S-098")), story.instant("2026-11-20T13:10")));
        assertThat(stage("2026-11-20T13:10")).isEqualTo(SetStage.CLEANING);
        assertThat(story.shelf("S-098", "2026-11-20T13:00").stage())
                .as("not yet in the wash ten minutes before")
                .isEqualTo(SetStage.RETURNED);
        assertThat(refusal("S-098", "Kay").of(RequirementKind.CLEAN))
                .extracting(Reason::why)
                .containsExactly(Why.IN_WASH);
        wash(batch, WashStep.Step.WASHED, "2026-11-20T13:20");
        wash(batch, WashStep.Step.WETTED, "2026-11-20T13:25");
        wash(batch, WashStep.Step.RINSED, "2026-11-20T13:28");
        wash(batch, WashStep.Step.DRY, "2026-11-20T15:00");
        assertThat(stage("2026-11-20T15:00")).isEqualTo(SetStage.AWAITING_INSPECTION);
        story.on("2026-11-20T15:10").flowChecked("S-098", "184", "2026-11-20T15:10");
        assertThat(stage("2026-11-20T15:10")).isEqualTo(SetStage.READY);

        story.on("2026-11-21T08:00");
        RecordId repair = story.held("S-098", Hold.Why.UNDER_REPAIR, "2026-11-21T08:00");
        assertThat(stage("2026-11-21T08:00")).isEqualTo(SetStage.UNDER_REPAIR);
        story.held("S-098", Hold.Why.IMPOUNDED, "2026-11-21T08:00");
        ShelfSet asFound = story.shelf("S-098", "2026-11-21T08:00");
        assertThat(asFound.stage()).isEqualTo(SetStage.IMPOUNDED);
        assertThat(SetStep.possible(asFound))
                .doesNotContain(SetStep.CLEAN, SetStep.CHANGE_PART, SetStep.MEND, SetStep.DISPOSE, SetStep.ISSUE);
        assertThat(story.in(() -> holds.open(story.site().id(), story.id("S-098"))))
                .extracting(Told::id)
                .contains(repair);
    }

    /** A set is evidence until the officer lets it go; what is disposed of has no next step and never comes back by hand. */
    @Test
    void onlyAWithdrawnSetThatIsNoEvidenceIsDisposedOf() {
        oneSet();
        assertThat(refused(() -> disposed("hose cut")).code()).isEqualTo("disposal.set.notWithdrawn");
        RecordId withdrawn = story.held("S-098", Hold.Why.WITHDRAWN, "2026-11-20T14:00");
        assertThat(stage("2026-11-20T15:00")).isEqualTo(SetStage.WITHDRAWN);
        assertThat(SetStep.next(story.shelf("S-098", "2026-11-20T15:00")))
                .first()
                .isEqualTo(SetStep.DISPOSE);
        RecordId kept = story.held("S-098", Hold.Why.IMPOUNDED, "2026-11-20T14:10");
        assertThat(refused(() -> disposed("hose cut")).code()).isEqualTo("disposal.set.impounded");
        story.in(() -> holds.release(
                story.author(), story.id("S-098"), kept, "looked at", story.instant("2026-11-20T14:20"), null));
        assertThat(refused(() -> disposed(" ")).code()).isEqualTo("disposal.how.missing");
        disposed("hose and seal cut, contaminated waste");
        ShelfSet gone = story.shelf("S-098", "2026-11-20T15:00");
        assertThat(gone.stage()).isEqualTo(SetStage.DISPOSED);
        assertThat(SetStep.possible(gone)).isEmpty();
        assertThat(SetStep.next(gone)).isEmpty();
        assertThat(refused(() -> disposed("again")).code()).isEqualTo("disposal.set.done");
        assertThat(refused(() -> story.in(() -> holds.release(
                                story.author(),
                                story.id("S-098"),
                                withdrawn,
                                "back in use",
                                story.instant("2026-11-20T14:50"),
                                null)))
                        .code())
                .isEqualTo("hold.placed.disposed");
        assertThat(refused(() -> story.held("S-098", Hold.Why.DISPOSED, "2026-11-20T14:00"))
                        .code())
                .isEqualTo("hold.why.disposed");
    }

    /** Kept as found, withdrawn or not: no water and no new part before the safety officer has let it go. */
    @Test
    void aSetThatIsWithdrawnAndKeptAsFoundStaysAsFound() {
        oneSet();
        RecordId kept = story.held("S-098", Hold.Why.IMPOUNDED, "2026-11-20T14:00");
        story.held("S-098", Hold.Why.WITHDRAWN, "2026-11-20T14:10");
        assertThat(stage("2026-11-20T15:00")).isEqualTo(SetStage.IMPOUNDED);
        assertThat(SetStep.next(story.shelf("S-098", "2026-11-20T15:00")))
                .first()
                .isEqualTo(SetStep.RELEASE);
        assertThat(SetStep.possible(story.shelf("S-098", "2026-11-20T15:00")))
                .doesNotContain(SetStep.CLEAN, SetStep.CHANGE_PART, SetStep.MEND, SetStep.DISPOSE);
        assertThat(refused(() -> story.disinfected("S-098", "2026-11-20T14:30")).code())
                .isEqualTo("cleaning.set.impounded");
        assertThat(refused(() -> story.in(() -> washes.begin(
                                story.author(), List.of(story.id("S-098")), story.instant("2026-11-20T14:30"))))
                        .code())
                .isEqualTo("cleaning.set.impounded");
        assertThat(refused(() -> story.fitted("S-098", "visor", "V-20", null, "2026-11-20T14:30"))
                        .code())
                .isEqualTo("partChange.set.impounded");
        // what was done before it was impounded is a fact, whenever it is told
        story.disinfected("S-098", "2026-11-20T13:00");
        story.in(() -> holds.release(
                story.author(), story.id("S-098"), kept, "looked at", story.instant("2026-11-20T14:40"), null));
        assertThat(stage("2026-11-20T15:00")).isEqualTo(SetStage.WITHDRAWN);
        story.disinfected("S-098", "2026-11-20T14:50");
    }

    private RecordId disposed(String how) {
        return story.in(() -> holds.dispose(story.author(), story.id("S-098"), how, story.instant("2026-11-20T14:40")));
    }

    private SetStage stage(String local) {
        return story.shelf("S-098", local).stage();
    }

    private void wash(UUID batch, WashStep.Step step, String at) {
        boolean wets = step == WashStep.Step.WETTED;
        WashStep told = new WashStep(
                step,
                step == WashStep.Step.WASHED ? new BigDecimal("35") : null,
                wets ? "CL-50" : null,
                wets ? new BigDecimal("50") : null,
                wets ? "ppm available chlorine" : null);
        story.on(at);
        story.in(() -> washes.step(story.author(), batch, told, story.instant(at)));
    }

    // --- what comes in wrong

    @Test
    void aFlowOf1750IsRefusedAndNothingIsRecorded() {
        oneSet();
        Refused refused = refused(() -> story.flowChecked("S-098", "1750", "2026-11-20T14:00"));
        assertThat(refused.code()).isEqualTo("flowCheck.reading.range");
        Examination lost =
                new Examination(Outcome.PASS, new BigDecimal("1750"), indicator("FM-1"), "E. Examiner", null);
        assertThat(refused(() -> examined(lost)).code()).isEqualTo("examination.reading.range");
        assertThat(reasons("S-098", "2026-11-20T15:00")).containsExactly(Why.MISSING, Why.MISSING);
    }

    /** Every sort of wash, not the disinfection alone: heat spoils a visor whatever is in the water. */
    @Test
    void aWashAt95DegreesIsRecordedAndHoldsTheSet() {
        oneSet();
        story.set("S-099", "H20", "2026-11-02T09:00");
        story.in(() -> cleanings.record(
                story.author(),
                story.id("S-098"),
                new Cleaning(Cleaning.Method.WASH, null, null, null, null, new BigDecimal("95")),
                story.instant("2026-11-20T14:00"),
                null));
        story.in(() -> cleanings.record(
                story.author(),
                story.id("S-099"),
                new Cleaning(
                        Cleaning.Method.WASH_AND_DISINFECT,
                        "CL-50",
                        new BigDecimal("50"),
                        "ppm available chlorine",
                        120,
                        new BigDecimal("95")),
                story.instant("2026-11-20T14:00"),
                null));
        assertThat(held("S-098")).containsExactly(Hold.Why.QUARANTINE);
        assertThat(held("S-099")).containsExactly(Hold.Why.QUARANTINE);
        Refused boiling = refused(() -> story.in(() -> cleanings.record(
                story.author(),
                story.id("S-098"),
                new Cleaning(Cleaning.Method.WASH, null, null, null, null, new BigDecimal("195")),
                story.instant("2026-11-20T14:30"),
                null)));
        assertThat(boiling.code()).isEqualTo("cleaning.celsius.range");
    }

    @Test
    void aLotNeverSeenIsAFinding() {
        oneSet();
        StockReceipt came = new StockReceipt("L-7", 10, LocalDate.parse("2028-06-30"), null, "DN 12");
        story.in(() -> stock.receive(story.author(), "V-20", came, story.instant("2026-10-01T09:00"), null));
        story.fitted("S-098", "visor", "V-20", "L-404", "2026-11-20T14:00");
        assertThat(story.in(() -> stock.kept(story.site().id(), story.instant("2026-11-20T15:00")))
                        .strangers())
                .extracting(Stock.Stranger::lot)
                .containsExactly("L-404");
    }

    /** A flow check is refused; an examination happened, is recorded, and proves no flow. */
    @Test
    void aReadingFromAnExpiredIndicatorProvesNothing() {
        oneSet();
        story.in(() -> story.kit().addInstrument(story.site().id(), "FM-OLD"));
        story.calibrated("FM-OLD", "2026-01-02T09:00", "2026-11-19");
        Refused lapsed = refused(() -> story.in(() -> flowChecks.record(
                story.author(),
                story.id("S-098"),
                new FlowChecks.Reading(new BigDecimal("190"), indicator("FM-OLD"), null, null),
                story.instant("2026-11-20T14:00"),
                null)));
        assertThat(lapsed.code()).isEqualTo("flowCheck.instrument.lapsed");
        assertThat(lapsed.arguments()).containsExactly("FM-OLD", LocalDate.parse("2026-11-19"));
        examined(new Examination(Outcome.PASS, new BigDecimal("190"), indicator("FM-OLD"), "E. Examiner", null));
        assertThat(reasons("S-098", "2026-11-20T15:00")).containsExactly(Why.NOT_ACCEPTED, Why.NOT_ACCEPTED);
    }

    @Test
    void aReturnOfASetThatNobodyHadIsRefused() {
        oneSet();
        assertThat(refused(() -> story.takeBack("S-098", true, "2026-11-20T14:00"))
                        .code())
                .isEqualTo("custody.notIssued");
        assertThat(story.shelf("S-098", "2026-11-20T15:00").custody())
                .extracting(told -> told.fact().claim())
                .isEqualTo(Custody.Claim.RECEIVED);
    }

    // --- helpers

    private void oneSet() {
        story.begin("2026-11-20T15:00").set("S-098", "H20", "2026-11-02T09:00");
    }

    private void examined(Examination examination) {
        story.in(() -> examinations.record(
                story.author(), story.id("S-098"), examination, story.instant("2026-11-20T14:00"), null));
    }

    private void made(String label, String madeOn, String at) {
        PartChange hose =
                new PartChange("HZ-7", "H-9", null, madeOn == null ? null : LocalDate.parse(madeOn), true, null);
        story.in(() -> partChanges.record(story.author(), story.id(label), "hose", hose, story.instant(at), null));
    }

    private RecordId recalled(String slot, String part, String lot, String at) {
        story.on(at);
        Recall recall =
                new Recall(null, slot, part, lot, Set.of(), null, null, Recall.Remedy.STOP_NOW, null, "N-17", "cracks");
        return story.in(() -> recalls.record(story.author(), recall, story.instant(at), null));
    }

    private InstrumentId indicator(String code) {
        return story.in(() -> story.kit().instrument(story.site().id(), code)).id();
    }

    private List<Hold.Why> held(String label) {
        return story.in(() -> holds.open(story.site().id(), story.id(label))).stream()
                .map(told -> told.fact().why())
                .toList();
    }

    private RecordId openDefect(String label) {
        return history.of(story.site().id(), story.id(label), clock.now(), 100).stream()
                .filter(version -> version.kind() == Kind.DEFECT)
                .<Told<?>>map(History.Version::told)
                .filter(told -> ((Defect) told.fact()).step() == Defect.Step.FOUND)
                .map(Told::id)
                .findFirst()
                .orElseThrow();
    }

    private long ready(String local) {
        return story.in(() -> bench.of(story.site().id(), story.instant(local).plusSeconds(59))).stream()
                .filter(set -> set.state() == ShelfSet.State.READY)
                .count();
    }

    private static List<RequirementKind> barring(ShelfSet set) {
        return set.readiness().barring().stream().map(Reason::kind).toList();
    }

    private List<Why> reasons(String label, String local) {
        return story.shelf(label, local).readiness().barring().stream()
                .map(Reason::why)
                .toList();
    }

    private Answer refusal(String label, String worker) {
        return catchThrowableOfType(NotCleared.class, () -> story.issue(label, worker))
                .answer();
    }

    private static Refused refused(ThrowingCallable doing) {
        return catchThrowableOfType(Refused.class, doing);
    }
}
