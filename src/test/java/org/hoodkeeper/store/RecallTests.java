package org.hoodkeeper.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.evidence.Corrections;
import org.hoodkeeper.evidence.Holds;
import org.hoodkeeper.evidence.Recalls;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Recall;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** A hose lot is called back: who has it, who had it, who is told, and when a set is free again. */
@SpringBootTest
@Import({StoreStory.class, TestPeople.class})
class RecallTests {

    @Autowired
    StoreStory story;

    @Autowired
    Recalls recalls;

    @Autowired
    RecallBook book;

    @Autowired
    Holds holds;

    @Autowired
    Corrections corrections;

    @Autowired
    KnowledgeClock clock;

    @BeforeEach
    void aStore() {
        story.begin("2026-11-20T08:00");
    }

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    private void set(String label, String lot, String fittedAt) {
        story.set(label, "H30", "2026-05-01T09:00");
        if (lot != null) {
            story.fitted(label, "hose", "HZ-7", lot, fittedAt);
        }
        story.disinfected(label, "2026-11-20T06:30").upToDate(label, "2026-11-20T07:00");
    }

    private RecordId recall(Recall.Remedy remedy, String swapBy, String at) {
        story.on(at);
        Recall recall = new Recall(
                null,
                "hose",
                "HZ-7",
                "H-2409B",
                Set.of(),
                null,
                null,
                remedy,
                swapBy == null ? null : LocalDate.parse(swapBy),
                "N-17",
                "cracks at the gasket");
        return story.in(() -> recalls.record(story.author(), recall, story.instant(at), null));
    }

    private RecallBook.Whole whole(RecordId recall) {
        return story.in(() -> book.one(story.site().id(), recall, clock.now()));
    }

    private List<Told<Hold>> held(String label) {
        return story.in(() -> holds.open(story.site().id(), story.id(label)));
    }

    private List<String> left(RecordId recall) {
        return whole(recall).left().stream()
                .map(one -> one.set().label())
                .sorted()
                .toList();
    }

    /** Scenario "Lot recall": 31 sets have the lot (9 worn, 16 ready, 4 held, 2 with a contractor), and one is not on record. */
    @Test
    void aLotIsRecalledAndEverySetThatHasItOrMayHaveItIsHeld() {
        List<String> all =
                IntStream.range(0, 31).mapToObj(n -> "S-3%02d".formatted(n)).toList();
        all.forEach(label -> set(label, "H-2409B", "2026-06-01T10:00"));
        set("S-140", null, "");
        set("S-122", "H-2409B", "2026-06-12T10:00");
        for (int n = 0; n < 11; n++) {
            story.worker("W" + n, "H30");
        }
        for (int n = 0; n < 41; n++) {
            String day = story.instant("2026-06-13T08:00")
                    .plusSeconds(86_400L * 2 * n)
                    .atZone(story.site().zone())
                    .toLocalDate()
                    .toString();
            story.wore("W0", "S-122", day + "T08:00", day + "T12:00");
        }
        story.fitted("S-122", "hose", "HZ-7", "H-2505A", "2026-10-03T12:00");
        story.disinfected("S-122", "2026-11-20T06:30").upToDate("S-122", "2026-11-20T07:00");
        for (int n = 0; n < 4; n++) {
            story.held(all.get(27 + n), Hold.Why.QUARANTINE, "2026-11-20T08:00");
        }
        for (int n = 0; n < 11; n++) {
            story.issue(all.get(n), "W" + n);
        }

        RecordId recall = recall(Recall.Remedy.STOP_NOW, null, "2026-11-20T09:00");

        RecallBook.Whole whole = whole(recall);
        assertThat(whole.left()).hasSize(32);
        assertThat(whole.unknown()).isEqualTo(1);
        assertThat(whole.inHands()).isEqualTo(11);
        assertThat(left(recall)).contains("S-140", "S-300", "S-330").doesNotContain("S-122");
        assertThat(held("S-122")).isEmpty();
        assertThat(whole.had())
                .filteredOn(stay -> stay.fitting().lot() != null)
                .singleElement()
                .satisfies(stay -> {
                    assertThat(stay.fitting().set()).isEqualTo(story.id("S-122"));
                    assertThat(stay.wears()).hasSize(41);
                });
        // 16 ready sets and S-140 are ready no more: S-122 alone is left
        assertThat(whole.readyWithout()).isEqualTo(18);
        assertThat(whole.ready()).isEqualTo(1);
        assertThat(story.shelf("S-311", "2026-11-20T09:00").state()).isEqualTo(ShelfSet.State.BLOCKED);
        for (int n = 0; n < 11; n++) {
            String name = "W" + n;
            String label = all.get(n);
            assertThat(story.in(() -> book.inHands(
                            story.site().id(),
                            story.people().byNumber(story.site().id(), name).id(),
                            clock.now())))
                    .extracting(RecallBook.InHands::label)
                    .containsExactly(label);
        }
        assertThat(whole.notice().percentDone()).isZero();
    }

    @Test
    void aSetIsFreeOnceTheRecalledPartIsOut() {
        set("S-1", "H-2409B", "2026-06-01T10:00");
        set("S-2", "H-2409B", "2026-06-01T10:00");
        RecordId recall = recall(Recall.Remedy.STOP_NOW, null, "2026-11-20T09:00");
        story.on("2026-11-20T10:00").fitted("S-1", "hose", "HZ-7", "H-2505A", "2026-11-20T10:00");
        assertThat(held("S-1")).isEmpty();
        assertThat(left(recall)).containsExactly("S-2");
        assertThat(whole(recall).notice().percentDone()).isEqualTo(50);
        assertThat(whole(recall).places()).containsExactly(new RecallBook.Place("Main store", 1, 1));
    }

    @Test
    void readingAnotherLotOffTheUnrecordedPartFreesTheSet() {
        set("S-140", null, "");
        RecordId recall = recall(Recall.Remedy.STOP_NOW, null, "2026-11-20T09:00");
        assertThat(left(recall)).containsExactly("S-140");
        story.on("2026-11-20T10:00").fitted("S-140", "hose", "HZ-7", "H-2505A", "2026-11-20T10:00");
        assertThat(held("S-140")).isEmpty();
        assertThat(whole(recall).notice().percentDone()).isEqualTo(100);
    }

    @Test
    void aRecalledPartFittedLaterHoldsItsSetAtOnce() {
        set("S-1", "H-2505A", "2026-06-01T10:00");
        RecordId recall = recall(Recall.Remedy.SWAP_BY, "2026-11-30", "2026-11-20T09:00");
        assertThat(held("S-1")).isEmpty();
        story.on("2026-11-21T10:00").fitted("S-1", "hose", "HZ-7", "H-2409B", "2026-11-21T10:00");
        assertThat(held("S-1")).singleElement().satisfies(hold -> {
            assertThat(hold.fact().why()).isEqualTo(Hold.Why.RECALL);
            assertThat(hold.scope()).isEqualTo(recall.toString());
            assertThat(hold.from()).isEqualTo(story.instant("2026-11-21T10:00"));
        });
    }

    @Test
    void swapByBarsFromTheEndOfThatDayOnly() {
        set("S-1", "H-2409B", "2026-06-01T10:00");
        recall(Recall.Remedy.SWAP_BY, "2026-11-22", "2026-11-20T09:00");
        assertThat(story.shelf("S-1", "2026-11-20T09:05").isHeld(Hold.Why.RECALL))
                .isFalse();
        assertThat(story.shelf("S-1", "2026-11-22T23:58").isHeld(Hold.Why.RECALL))
                .isFalse();
        assertThat(story.shelf("S-1", "2026-11-23T00:00").isHeld(Hold.Why.RECALL))
                .isTrue();
    }

    @Test
    void swappedInTimeItNeverBars() {
        set("S-1", "H-2409B", "2026-06-01T10:00");
        recall(Recall.Remedy.SWAP_BY, "2026-11-22", "2026-11-20T09:00");
        story.on("2026-11-21T10:00").fitted("S-1", "hose", "HZ-7", "H-2505A", "2026-11-21T10:00");
        assertThat(held("S-1")).isEmpty();
        assertThat(story.shelf("S-1", "2026-11-23T00:00").isHeld(Hold.Why.RECALL))
                .isFalse();
    }

    @Test
    void nobodyReleasesARecallByHand() {
        set("S-1", "H-2409B", "2026-06-01T10:00");
        recall(Recall.Remedy.STOP_NOW, null, "2026-11-20T09:00");
        RecordId hold = held("S-1").get(0).id();
        assertThatThrownBy(() -> story.in(() -> holds.release(
                        story.author(), story.id("S-1"), hold, "looks fine", story.instant("2026-11-20T09:00"), null)))
                .isInstanceOf(Refused.class)
                .hasMessageContaining("hold.placed.recall");
    }

    @Test
    void theOfficersDecisionFreesASetUntilARecalledPartIsFittedAgain() {
        set("S-1", "H-2409B", "2026-06-01T10:00");
        RecordId recall = recall(Recall.Remedy.STOP_NOW, null, "2026-11-20T09:00");
        story.on("2026-11-20T09:30");
        story.in(() -> recalls.decide(
                story.author(), story.id("S-1"), recall, "made before the change", story.instant("2026-11-20T09:30")));
        assertThat(held("S-1")).isEmpty();
        assertThat(whole(recall).has()).singleElement().satisfies(one -> {
            assertThat(one.isLeft()).isFalse();
            assertThat(one.decided()).isNotNull();
        });
        story.on("2026-11-20T11:00").fitted("S-1", "hose", "HZ-7", "H-2409B", "2026-11-20T11:00");
        assertThat(held("S-1")).hasSize(1);
    }

    @Test
    void takenBackTheRecallFreesEverySetAndAWrongSwapHoldsItAgain() {
        set("S-1", "H-2409B", "2026-06-01T10:00");
        set("S-2", "H-2409B", "2026-06-01T10:00");
        RecordId recall = recall(Recall.Remedy.STOP_NOW, null, "2026-11-20T09:00");
        RecordId swap = story.on("2026-11-20T10:00").fitted("S-1", "hose", "HZ-7", "H-2505A", "2026-11-20T10:00");
        Viewer officer = new Viewer(story.site().id(), story.viewer().account(), Set.of(Role.OFFICER), null, null);
        story.in(() -> corrections.withdraw(officer, swap, "it was S-2"));
        assertThat(held("S-1")).hasSize(1);
        story.in(() -> corrections.withdraw(officer, recall, "another site's notice"));
        assertThat(held("S-1")).isEmpty();
        assertThat(held("S-2")).isEmpty();
        assertThat(story.in(() -> book.all(story.site().id(), clock.now()))).isEmpty();
    }

    @Test
    void aLotAloneIsRefusedAndSoIsALastDayThatIsOver() {
        Instant at = story.instant("2026-11-20T08:00");
        assertThatThrownBy(() -> story.in(() -> recalls.record(Author.at(story.viewer()), lotAlone(), at, null)))
                .hasMessageContaining("recall.place.missing");
        assertThatThrownBy(() -> recall(Recall.Remedy.SWAP_BY, "2026-11-19", "2026-11-20T08:00"))
                .hasMessageContaining("recall.swapBy.past");
        assertThatThrownBy(() -> recall(Recall.Remedy.SWAP_BY, null, "2026-11-20T08:00"))
                .hasMessageContaining("recall.swapBy.missing");
    }

    private static Recall lotAlone() {
        return new Recall(
                null, null, null, "H-2409B", Set.of(), null, null, Recall.Remedy.STOP_NOW, null, null, "cracks");
    }

    /** Lots are typed by hand from a worn print: case, spaces and dashes tell nobody apart. */
    @Test
    void aLotTypedInAnotherWayIsTheSameLot() {
        set("S-1", "h 2409b", "2026-06-01T10:00");
        set("S-2", "H2409B", "2026-06-01T10:00");
        set("S-3", "H-2409C", "2026-06-01T10:00");
        RecordId recall = recall(Recall.Remedy.STOP_NOW, null, "2026-11-20T09:00");
        assertThat(left(recall)).containsExactly("S-1", "S-2");
    }
}
