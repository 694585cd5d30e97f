package org.hoodkeeper.oversight;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.List;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.evidence.TestSite;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.WorkerId;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.reporting.KnowledgeClock;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.transaction.support.TransactionTemplate;

/** A site with more wears than are looked at as a whole: today and one earlier day have their turn each time. */
@SpringBootTest
@Import(TestSite.class)
class SweepTest {

    private static final Instant NOON = Instant.parse("2026-03-10T12:00:00Z");
    private static final int FEW = 3;
    private static final int AT_ONCE = 2;
    /** From today back to the oldest day that is looked at, and some more. */
    private static final int WHOLE_ROUND = 95;

    @Autowired
    TestSite sites;

    @Autowired
    SiteRegister register;

    @Autowired
    JudgedWears wears;

    @Autowired
    KnowledgeClock clock;

    @Autowired
    Ledger ledger;

    @Autowired
    TransactionTemplate transaction;

    @Autowired
    JdbcTemplate jdbc;

    private TestSite.Laid laid;
    private Sweep sweep;

    @BeforeEach
    void twoAreInsideAndThreeDaysLieBehindThem() {
        TestClock.set(TestSite.BEGINNING);
        laid = sites.lay("uk");
        sweep = new Sweep(register, wears, clock);
        TestClock.set(NOON);
        whole("2026-03-07T08:00:00Z");
        whole("2026-03-08T08:00:00Z");
        whole("2026-03-09T08:00:00Z");
        tell(wear(Wear.Step.ENTRY, laid.worker(), Instant.parse("2026-03-10T08:00:00Z")));
        tell(wear(Wear.Step.ENTRY, laid.other(), Instant.parse("2026-03-10T09:00:00Z")));
    }

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    @Test
    void whoeverIsInsideTakesNoTurnFromTheDaysBefore() {
        turn();
        assertThat(judged()).containsExactly("2026-03-09T08:00:00Z", "2026-03-10T09:00:00Z");
        turn();
        turn();
        assertThat(judged())
                .containsExactly(
                        "2026-03-07T08:00:00Z", "2026-03-08T08:00:00Z", "2026-03-09T08:00:00Z", "2026-03-10T09:00:00Z");
    }

    @Test
    void afterTheOldestDayItBeginsAnewAndSeesWhatWasToldLate() {
        turns(WHOLE_ROUND);
        assertThat(barred("2026-03-07T08:00:00Z")).doesNotContain("KIT_HOLD");
        tell(Draft.of(
                new Hold(Hold.Step.PLACED, Hold.Why.DEFECT, null), laid.mask(), Instant.parse("2026-03-07T07:00:00Z")));
        TestClock.set(NOON.plusSeconds(60));
        turns(WHOLE_ROUND);
        assertThat(barred("2026-03-07T08:00:00Z")).contains("KIT_HOLD");
    }

    @Test
    void aSiteWithFewIsLookedAtAsAWhole() {
        sweep(100, 100);
        assertThat(judged()).hasSize(5);
    }

    private void turns(int count) {
        for (int n = 0; n < count; n++) {
            turn();
        }
    }

    private void turn() {
        sweep(FEW, AT_ONCE);
    }

    private void sweep(int few, int atOnce) {
        laid.run(() -> sweep.judge(laid.site().id(), clock.now(), few, atOnce));
    }

    private void whole(String from) {
        Instant begun = Instant.parse(from);
        tell(wear(Wear.Step.WHOLE, laid.worker(), begun).until(begun.plusSeconds(3_600)));
    }

    private Draft wear(Wear.Step step, WorkerId worker, Instant at) {
        return Draft.of(new Wear(laid.task(), step), worker, at).item(laid.mask());
    }

    private void tell(Draft draft) {
        laid.in(() -> transaction.execute(status -> ledger.append(laid.author(), draft)));
    }

    private List<String> judged() {
        return laid.in(() -> transaction.execute(status -> jdbc.query(
                "select wear_from from judged_wear where site_id = ? order by wear_from",
                (row, n) -> row.getTimestamp(1).toInstant().toString(),
                laid.site().id().value())));
    }

    private List<String> barred(String from) {
        return laid.in(() -> transaction.execute(status -> jdbc.queryForList(
                "select unnest(now_barred) from judged_wear where site_id = ? and wear_from = ?::timestamptz",
                String.class,
                laid.site().id().value(),
                from)));
    }
}
