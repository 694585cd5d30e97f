package org.hoodkeeper.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.evidence.Washes;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.WashStep;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** Whether the sets will do for tomorrow's early shift. The models' product needs 120 s wet. */
@SpringBootTest
@Import({TestPeople.class, StoreStory.class})
class ReadyingTest {

    @Autowired
    StoreStory story;

    @Autowired
    Readying readying;

    @Autowired
    Washes washes;

    /** Kay and Lee have a set each, and Max has none. */
    @BeforeEach
    void aStore() {
        story.fridayAtThree().on("2026-11-20T15:10");
    }

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    private ReadyCount at(String local, String now) {
        return story.in(() -> readying.of(story.viewer(), story.instant(local), story.instant(now)));
    }

    private ReadyCount early() {
        return at("2026-11-21T06:00", "2026-11-20T15:10");
    }

    private void kept(String label, boolean emergency) {
        SetData data = new SetData(
                story.in(() -> story.kit().model(story.site().id(), "H20")).id(),
                "M",
                "R1",
                null,
                emergency,
                null,
                null);
        story.in(() -> story.kit().addSet(story.author(), label, data, story.instant("2026-11-02T09:00")));
    }

    @Test
    void whoHasAReadySetIsServedAndWhoHasNoneIsUnknown() {
        ReadyCount count = early();
        assertThat(count.sizes()).containsExactly(new ReadyCount.OfSize("H20", "M", 2, 2, 0, List.of()));
        assertThat(count.ready()).isEqualTo(2);
        assertThat(count.shortBy()).isZero();
        assertThat(count.withoutSize()).containsExactly("Max");
    }

    @Test
    void aSetThatFailedInTheHandIsShortUntilAnotherOfItsSizeIsReady() {
        story.flowChecked("S-131", "169", "2026-11-20T15:05");
        ReadyCount failed = early();
        assertThat(failed.ready()).isEqualTo(1);
        assertThat(failed.wanted()).isEqualTo(2);
        assertThat(failed.shortBy()).isEqualTo(1);
        // nobody knows when it comes back, and a hold has no usual time
        assertThat(failed.sizes().get(0).awaited())
                .containsExactly(new ReadyCount.Awaited(
                        "S-131",
                        SetStage.ISSUED,
                        List.of(SetStep.RETURN, SetStep.CLEAN, SetStep.FLOW_CHECK, SetStep.RELEASE),
                        false,
                        null));
        story.set("S-140", "H40", "2026-11-02T09:00").upToDate("S-140", "2026-11-20T13:00");
        assertThat(early().shortBy()).as("another model is no help").isEqualTo(1);
        kept("S-150", true);
        story.upToDate("S-150", "2026-11-20T13:00");
        assertThat(early().shortBy()).as("it is kept for emergencies").isEqualTo(1);
        kept("S-160", false);
        story.upToDate("S-160", "2026-11-20T13:00");
        ReadyCount served = early();
        assertThat(served.shortBy()).isZero();
        assertThat(served.sizes())
                .extracting(
                        ReadyCount.OfSize::model,
                        ReadyCount.OfSize::wanted,
                        ReadyCount.OfSize::inHand,
                        ReadyCount.OfSize::inStore)
                .containsExactly(tuple("H20", 2, 1, 1), tuple("H40", 0, 0, 1));
    }

    /** Wash 10 min, wet 2, rinse 5, dry 90, flow check 8: common practice. An examination and a hold have no usual time. */
    @Test
    void whatIsReadySoonestStandsFirstAndWhatNobodyCanForetellLast() {
        story.flowChecked("S-131", "169", "2026-11-20T15:05");
        for (String label : List.of("S-201", "S-202", "S-203", "S-204", "S-205")) {
            story.set(label, "H20", "2026-11-02T09:00");
        }
        story.examined("S-201", "2026-11-20T13:00").fitted("S-201", "visor", "V-20", null, "2026-11-20T13:30");
        story.upToDate("S-202", "2026-11-20T13:00");
        story.in(() -> washes.begin(story.author(), List.of(story.id("S-202")), story.instant("2026-11-20T15:04")));
        story.upToDate("S-203", "2026-11-20T12:00").wore("Kay", "S-203", "2026-11-20T13:00", "2026-11-20T14:00");
        story.upToDate("S-204", "2026-11-20T13:00").held("S-204", Hold.Why.QUARANTINE, "2026-11-20T14:00");
        List<ReadyCount.Awaited> awaited = early().sizes().get(0).awaited();
        assertThat(awaited)
                .extracting(
                        ReadyCount.Awaited::label,
                        ReadyCount.Awaited::stage,
                        ReadyCount.Awaited::steps,
                        ReadyCount.Awaited::ready)
                .containsExactly(
                        tuple(
                                "S-201",
                                SetStage.AWAITING_INSPECTION,
                                List.of(SetStep.FLOW_CHECK),
                                story.instant("2026-11-20T15:18")),
                        tuple("S-202", SetStage.CLEANING, List.of(), story.instant("2026-11-20T16:59")),
                        tuple(
                                "S-203",
                                SetStage.RETURNED,
                                List.of(SetStep.CLEAN, SetStep.FLOW_CHECK),
                                story.instant("2026-11-20T17:05")),
                        tuple(
                                "S-205",
                                SetStage.AWAITING_EXAMINATION,
                                List.of(SetStep.EXAMINE, SetStep.FLOW_CHECK),
                                null),
                        tuple("S-204", SetStage.HELD, List.of(SetStep.RELEASE), null),
                        tuple(
                                "S-131",
                                SetStage.ISSUED,
                                List.of(SetStep.RETURN, SetStep.CLEAN, SetStep.FLOW_CHECK, SetStep.RELEASE),
                                null));
        assertThat(early().sizes().get(0).inStore()).isZero();
    }

    /** Begun 15:04, so that the wash of ten minutes is over at 15:14; nobody recorded it by 15:40. */
    @Test
    void aStepThatShouldBeOverEndsNow() {
        Washes.Batch batch = story.in(() -> washes.batch(
                story.site().id(),
                washes.begin(story.author(), List.of(story.id("S-098")), story.instant("2026-11-20T15:04")),
                story.instant("2026-11-20T15:10")));
        assertThat(batch.at()).isEqualTo(WashStep.Step.STRIPPED);
        assertThat(UsualTimes.ready(batch, story.instant("2026-11-20T15:10")))
                .isEqualTo(story.instant("2026-11-20T16:59"));
        assertThat(UsualTimes.ready(batch, story.instant("2026-11-20T15:40")))
                .isEqualTo(story.instant("2026-11-20T17:25"));
    }

    @Test
    void aSetInHandThatIsInAWashIsNotReady() {
        story.in(() -> washes.begin(story.author(), List.of(story.id("S-098")), story.instant("2026-11-20T15:04")));
        assertThat(early().sizes().get(0).inHand()).isEqualTo(1);
        assertThat(early().shortBy()).isEqualTo(1);
    }

    @Test
    void aSetOnAnAirSupplyThatWasNeverTestedIsNotReady() {
        ModelData data = new ModelData(
                "A10",
                InterfaceType.AIRLINE_HOOD,
                Map.of("uk", "4A"),
                false,
                Set.of("M"),
                "R1",
                null,
                null,
                null,
                Set.of(FilterKind.PARTICLE),
                List.of(),
                null,
                List.of());
        story.in(() -> story.kit().addModel(story.author(), "A10", data, story.instant("2026-01-01T00:00")));
        SetData set = new SetData(
                story.in(() -> story.kit().model(story.site().id(), "A10")).id(),
                "M",
                "R1",
                story.in(() -> story.kit().addSupply(story.site().id(), "C-1")),
                false,
                null,
                null);
        story.in(() -> story.kit().addSet(story.author(), "S-301", set, story.instant("2026-11-02T09:00")));
        story.examined("S-301", "2026-11-20T13:00");
        ReadyCount.OfSize fed = early().sizes().get(0);
        assertThat(fed.model()).isEqualTo("A10");
        assertThat(fed.inStore()).isZero();
        assertThat(fed.awaited()).extracting(ReadyCount.Awaited::air).containsExactly(true);
        assertThat(fed.awaited().get(0).ready()).isNull();
    }

    /** UK: examined monthly. What lapses until then is not ready then. */
    @Test
    void readyTodayIsNotReadyForATimeAfterTheExaminationHasLapsed() {
        ReadyCount later = at("2027-03-01T06:00", "2026-11-20T15:10");
        assertThat(later.shortBy()).isEqualTo(2);
        assertThatThrownBy(() -> at("2027-11-30T06:00", "2026-11-20T15:10"))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo("moment.at.future"));
    }
}
