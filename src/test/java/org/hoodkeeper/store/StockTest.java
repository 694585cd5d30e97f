package org.hoodkeeper.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.evidence.Corrections;
import org.hoodkeeper.evidence.PartChanges;
import org.hoodkeeper.evidence.Stock;
import org.hoodkeeper.evidence.StockItem;
import org.hoodkeeper.evidence.StockLot;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.StockCount;
import org.hoodkeeper.facts.StockReceipt;
import org.hoodkeeper.facts.StockUse;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** What the store keeps by lot, from the box to the set. */
@SpringBootTest
@Import({StoreStory.class, org.hoodkeeper.access.TestPeople.class})
class StockTest {

    @Autowired
    StoreStory story;

    @Autowired
    Stock stock;

    @Autowired
    PartChanges partChanges;

    @Autowired
    Corrections corrections;

    @BeforeEach
    void aStore() {
        story.begin("2026-11-20T15:00").set("S-098", "H20", "2026-11-02T09:00").upToDate("S-098", "2026-11-20T13:00");
    }

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    private void came(String item, @Nullable String lot, int pieces, @Nullable String lastDay, String at) {
        came(item, lot, pieces, lastDay, null, at);
    }

    private void came(
            String item,
            @Nullable String lot,
            int pieces,
            @Nullable String lastDay,
            @Nullable String orderedOn,
            String at) {
        StockReceipt receipt = new StockReceipt(
                lot,
                pieces,
                lastDay == null ? null : LocalDate.parse(lastDay),
                orderedOn == null ? null : LocalDate.parse(orderedOn),
                "Delivery note 1");
        story.in(() -> stock.receive(story.author(), item, receipt, story.instant(at), null));
    }

    private void taken(String item, @Nullable String lot, int pieces, StockUse.Use use, String at) {
        story.in(() -> stock.take(story.author(), item, new StockUse(lot, pieces, use), story.instant(at), null));
    }

    private Stock.Kept kept(String at) {
        return story.in(() -> stock.kept(story.site().id(), story.instant(at)));
    }

    private StockItem item(String code, String at) {
        return kept(at).items().stream()
                .filter(item -> item.code().equals(code))
                .findFirst()
                .orElseThrow();
    }

    private void fitted(String lot, String at) {
        PartChange change = new PartChange("V-20", lot, null, null, true, null);
        story.in(() -> partChanges.record(story.author(), story.id("S-098"), "visor", change, story.instant(at), null));
    }

    @Test
    void theLotThatExpiresFirstIsTakenFirstAndOneWithoutADayLast() {
        came("F-1", "L-9", 20, null, "2026-10-01T09:00");
        came("F-1", "L-7", 10, "2027-06-30", "2026-10-02T09:00");
        came("F-1", "L-8", 5, "2027-01-31", "2026-10-03T09:00");
        StockItem filter = item("F-1", "2026-11-20T15:00");
        assertThat(filter.lots()).extracting(StockLot::lot).containsExactly("L-8", "L-7", "L-9");
        assertThat(filter.next().lot()).isEqualTo("L-8");
        assertThat(filter.usable()).isEqualTo(35);
    }

    @Test
    void aLotTypedInAnotherWayIsTakenFromTheSameLot() {
        came("F-1", "L-7", 10, "2026-11-19", "2026-10-02T09:00");
        taken("F-1", "l 7", 4, StockUse.Use.USED, "2026-11-01T09:00");
        assertThat(item("F-1", "2026-11-19T15:00").lots()).singleElement().satisfies(lot -> {
            assertThat(lot.lot()).isEqualTo("L-7");
            assertThat(lot.pieces()).isEqualTo(6);
        });
        assertThatThrownBy(() -> taken("F-1", "L7", 1, StockUse.Use.USED, "2026-11-20T10:00"))
                .isInstanceOfSatisfying(
                        Refused.class, no -> assertThat(no.code()).isEqualTo("stockUse.lot.expired"));
    }

    @Test
    void aLotIsGoodUpToAndIncludingItsLastDayAndThenNoLongerCounts() {
        came("F-1", "L-8", 5, "2026-11-19", "2026-10-03T09:00");
        came("F-1", "L-7", 2, "2027-06-30", "2026-10-03T09:00");
        assertThat(item("F-1", "2026-11-19T23:59").usable()).isEqualTo(7);
        StockItem after = item("F-1", "2026-11-20T00:00");
        assertThat(after.usable()).isEqualTo(2);
        assertThat(after.expiredPieces()).isEqualTo(5);
        assertThat(after.next().lot()).isEqualTo("L-7");
        assertThatThrownBy(() -> taken("F-1", "L-8", 1, StockUse.Use.USED, "2026-11-20T10:00"))
                .isInstanceOfSatisfying(
                        Refused.class, no -> assertThat(no.code()).isEqualTo("stockUse.lot.expired"));
        taken("F-1", "L-8", 5, StockUse.Use.DISCARDED, "2026-11-20T10:00");
        assertThat(item("F-1", "2026-11-20T15:00").expired()).isEmpty();
    }

    /** 58 used in 80 days and a delivery of 8 days: 5.8 until it comes. Poisson, 95 %: 10 (D-20's figure from tables). */
    @Test
    void theReorderPointFollowsFromTheSitesOwnUseAndDeliveries() {
        came("F-1", "L-7", 100, "2028-06-30", "2026-08-24", "2026-09-01T15:00");
        taken("F-1", "L-7", 40, StockUse.Use.USED, "2026-10-01T09:00");
        taken("F-1", "L-7", 18, StockUse.Use.FITTED, "2026-11-01T09:00");
        taken("F-1", "L-7", 31, StockUse.Use.DISCARDED, "2026-11-02T09:00");
        StockItem filter = item("F-1", "2026-11-20T14:00");
        assertThat(filter.leadDays()).isEqualTo(8);
        assertThat(item("F-1", "2026-11-20T15:00").reorderAt()).isEqualTo(10);
        assertThat(item("F-1", "2026-11-20T15:00").isToOrder()).isFalse();
        taken("F-1", "L-7", 1, StockUse.Use.DISCARDED, "2026-11-20T14:00");
        StockItem low = item("F-1", "2026-11-20T15:00");
        assertThat(low.usable()).isEqualTo(10);
        assertThat(low.isToOrder()).isTrue();
        assertThat(low.lasts()).isEqualTo(13);
        assertThat(low.inThirtyDays()).isEqualByComparingTo(new BigDecimal("21.8"));
    }

    @Test
    void withoutAnOrderDayOrWithUseOverAFewDaysNothingIsClaimed() {
        came("F-1", "L-7", 4, null, "2026-09-01T09:00");
        taken("F-1", "L-7", 3, StockUse.Use.USED, "2026-10-01T09:00");
        assertThat(item("F-1", "2026-11-20T15:00").reorderAt()).isNull();
        came("F-2", "L-1", 4, null, "2026-11-01", "2026-11-10T09:00");
        taken("F-2", "L-1", 3, StockUse.Use.USED, "2026-11-12T09:00");
        StockItem young = item("F-2", "2026-11-20T15:00");
        assertThat(young.isUseKnown()).isFalse();
        assertThat(young.reorderAt()).isNull();
        assertThat(young.lasts()).isNull();
    }

    @Test
    void whatRunsOutFirstStandsInFront() {
        came("A-1", "L-1", 100, null, "2026-09-01T09:00");
        taken("A-1", "L-1", 10, StockUse.Use.USED, "2026-10-01T09:00");
        came("B-1", "L-1", 20, null, "2026-09-01T09:00");
        taken("B-1", "L-1", 15, StockUse.Use.USED, "2026-10-01T09:00");
        assertThat(kept("2026-11-20T15:00").items()).extracting(StockItem::code).containsExactly("B-1", "A-1");
    }

    @Test
    void aCountReplacesWhatWasReckonedOfThatLotAlone() {
        came("F-1", "L-7", 10, null, "2026-10-01T09:00");
        came("F-1", "L-8", 10, null, "2026-10-01T09:00");
        taken("F-1", "L-7", 12, StockUse.Use.USED, "2026-10-05T09:00");
        assertThat(item("F-1", "2026-10-06T09:00").isToCount()).isTrue();
        story.in(() -> stock.count(
                story.author(), "F-1", new StockCount("L-7", 3, null), story.instant("2026-10-07T09:00"), null));
        assertThat(item("F-1", "2026-10-08T09:00").usable()).isEqualTo(13);
        assertThat(item("F-1", "2026-10-08T09:00").isToCount()).isFalse();
    }

    @Test
    void aFittedPartIsOneLessOfItsLot() {
        came("V-20", "L-7", 10, "2028-06-30", "2026-10-01T09:00");
        fitted("L-7", "2026-11-20T14:00");
        assertThat(item("V-20", "2026-11-20T15:00").usable()).isEqualTo(9);
        assertThat(story.shelf("S-098", "2026-11-20T15:00").isHeld(Hold.Why.QUARANTINE))
                .isFalse();
    }

    @Test
    void aLotThatTheStoreNeverHadIsRecordedAndStandsOnThePageOfTheStock() {
        came("V-20", "L-7", 10, null, "2026-10-01T09:00");
        fitted("L-404", "2026-11-20T14:00");
        Stock.Kept kept = kept("2026-11-20T15:00");
        assertThat(kept.items().get(0).usable()).isEqualTo(10);
        assertThat(kept.strangers()).singleElement().satisfies(stranger -> {
            assertThat(stranger.lot()).isEqualTo("L-404");
            assertThat(stranger.set()).isEqualTo(story.id("S-098"));
        });
        came("V-20", "L-404", 1, null, "2026-10-02T09:00");
        assertThat(kept("2026-11-20T15:00").strangers()).isEmpty();
    }

    @Test
    void aPartOfALotOverItsDayHoldsTheSet() {
        came("V-20", "L-7", 10, "2026-11-01", "2026-10-01T09:00");
        fitted("L-7", "2026-11-20T14:00");
        assertThat(story.shelf("S-098", "2026-11-20T15:00").isHeld(Hold.Why.QUARANTINE))
                .isTrue();
    }

    @Test
    void theSameLotCannotHaveTwoLastDays() {
        came("F-1", "L-7", 10, "2027-06-30", "2026-10-01T09:00");
        assertThatThrownBy(() -> came("F-1", "L-7", 10, "2028-06-30", "2026-10-02T09:00"))
                .isInstanceOfSatisfying(
                        Refused.class, no -> assertThat(no.code()).isEqualTo("stockReceipt.lastDay.differs"));
    }

    /** Told as L-7, and put right: the print on the part says L-8, which was over its day. */
    @Test
    void aPartThatIsPutRightToALotOverItsDayHoldsTheSet() {
        came("V-20", "L-7", 5, "2027-06-30", "2026-10-02T09:00");
        came("V-20", "L-8", 5, "2026-11-10", "2026-10-02T09:00");
        Instant at = story.instant("2026-11-20T14:00");
        PartChange good = new PartChange("V-20", "L-7", null, null, true, null);
        RecordId told = story.in(() -> partChanges.record(story.author(), story.id("S-098"), "visor", good, at, null));
        assertThat(story.shelf("S-098", "2026-11-20T15:00").isHeld(Hold.Why.QUARANTINE))
                .isFalse();
        PartChange over = new PartChange("V-20", "L-8", null, null, true, null);
        story.in(() -> corrections.correct(
                story.viewer(), told, Draft.of(over, story.id("S-098"), at).scope("visor"), "misread"));
        assertThat(story.shelf("S-098", "2026-11-20T15:00").isHeld(Hold.Why.QUARANTINE))
                .isTrue();
    }
}
