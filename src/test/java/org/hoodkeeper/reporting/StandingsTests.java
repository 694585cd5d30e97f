package org.hoodkeeper.reporting;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.hoodkeeper.assessment.Wall;
import org.hoodkeeper.evidence.TestSite;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.Particulars;
import org.hoodkeeper.facts.Posting;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.facts.WashStep;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.people.People;
import org.hoodkeeper.rules.RequirementKind;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.transaction.support.TransactionTemplate;

/** Today's board, brought up to date by what was told since the last look. */
@RecordingPage
class StandingsTests {

    private static final Instant DAY = Instant.parse("2026-02-03T09:00:00Z");

    @Autowired
    Standings standings;

    @Autowired
    TestSite sites;

    @Autowired
    People people;

    @Autowired
    Ledger ledger;

    @Autowired
    TransactionTemplate transaction;

    /** 20 100 records about Ada and then one about Bo: more than a look reads, about two people only. */
    @Test
    void whoIsStoppedAtTheEndOfALongFileIsNotOverlooked() {
        TestSite.Laid laid = sites.lay("uk");
        laid.run(() -> transaction.executeWithoutResult(status -> ledger.append(
                laid.author(),
                Draft.of(new Posting(Posting.Change.POSTED), laid.other(), DAY).item(laid.task()))));
        Standings.Kept before = laid.in(() -> standings.of(laid.site()));
        List<Draft> file = new ArrayList<>();
        for (int i = 0; i < 20_100; i++) {
            file.add(Draft.of(
                            new Training(Outcome.PASS, true, null, false, null),
                            laid.worker(),
                            DAY.plus(Duration.ofSeconds(i)))
                    .scope("HOOD-A"));
        }
        file.add(Draft.of(new Hold(Hold.Step.PLACED, Hold.Why.SUSPENDED, null), laid.other(), DAY));
        laid.run(() -> transaction.executeWithoutResult(status -> ledger.append(laid.author(), file)));
        Standings.Kept kept = laid.in(() -> standings.of(laid.site()));
        assertThat(firstReason(before, laid)).isNotEqualTo(RequirementKind.PERSON_HOLD);
        assertThat(firstReason(kept, laid)).isEqualTo(RequirementKind.PERSON_HOLD);
    }

    /** A count of the stock says nothing of anybody; a step of a batch of the sets that went into it; a decision of everybody. */
    @Test
    void onlyWhomItConcernsIsJudgedAnew() throws InterruptedException {
        TestSite.Laid laid = sites.lay("uk");
        SiteId site = laid.site().id();
        tell(
                laid,
                Draft.of(new Posting(Posting.Change.POSTED), laid.worker(), DAY).item(laid.task()),
                Draft.of(new Posting(Posting.Change.POSTED), laid.other(), DAY).item(laid.task()),
                Draft.of(new Custody(Custody.Claim.ISSUED, null, null), laid.hood(), DAY)
                        .item(laid.worker()));
        Standings.Kept before = settled(laid);
        tell(laid, Draft.of(new Particulars("Ferrow Works", "Mill Lane", java.util.Map.of()), site, DAY));
        Standings.Kept still = laid.in(() -> standings.of(laid.site()));
        assertThat(still.standings().get(laid.worker()))
                .isSameAs(before.standings().get(laid.worker()));

        tell(laid, step(WashStep.Step.STRIPPED, site).item(laid.hood()));
        Standings.Kept stripped = laid.in(() -> standings.of(laid.site()));
        tell(laid, step(WashStep.Step.WASHED, site));
        Standings.Kept washed = laid.in(() -> standings.of(laid.site()));
        assertThat(stripped.standings().get(laid.worker()))
                .isNotSameAs(still.standings().get(laid.worker()));
        assertThat(washed.standings().get(laid.worker()))
                .isNotSameAs(stripped.standings().get(laid.worker()));
        assertThat(washed.standings().get(laid.other()))
                .isSameAs(before.standings().get(laid.other()));

        tell(laid, Draft.of(new SiteDecision("no", null, null), site, DAY).scope("medical.required/POWERED_HOOD"));
        Standings.Kept decided = laid.in(() -> standings.of(laid.site()));
        assertThat(decided.standings().get(laid.other()))
                .isNotSameAs(before.standings().get(laid.other()));
    }

    /** A look reads the last moments before it once more, since a writer may have been at work: until these say nothing new. */
    private Standings.Kept settled(TestSite.Laid laid) throws InterruptedException {
        Standings.Kept last = laid.in(() -> standings.of(laid.site()));
        for (int i = 0; i < 100; i++) {
            Thread.sleep(300);
            Standings.Kept next = laid.in(() -> standings.of(laid.site()));
            if (next.standings().get(laid.worker()) == last.standings().get(laid.worker())
                    && next.standings().get(laid.other()) == last.standings().get(laid.other())) {
                return next;
            }
            last = next;
        }
        throw new AssertionError("the board does not come to rest");
    }

    private static Draft step(WashStep.Step step, SiteId site) {
        return Draft.of(new WashStep(step, null, null, null, null), site, DAY).scope("B-1");
    }

    private void tell(TestSite.Laid laid, Draft... drafts) {
        laid.run(() -> transaction.executeWithoutResult(status -> ledger.append(laid.author(), List.of(drafts))));
    }

    private static RequirementKind firstReason(Standings.Kept kept, TestSite.Laid laid) {
        return kept.standings()
                .get(laid.other())
                .lines()
                .get(0)
                .get(Wall.View.WHOLE)
                .glance()
                .first()
                .kind();
    }

    /** They are read and judged five hundred at a time, one part while the next is read. */
    @Test
    void elevenHundredPeopleComeInTheirOrderAndEachOnce() {
        TestSite.Laid laid = sites.lay("uk");
        laid.run(() -> transaction.executeWithoutResult(status -> {
            for (int i = 0; i < 1_100; i++) {
                people.register(laid.site().id(), "N-%04d".formatted(i), "Somebody", null);
            }
        }));
        List<String> numbers = laid.in(() -> standings.of(laid.site())).everyone().stream()
                .map(standing -> standing.worker().number())
                .filter(number -> number.startsWith("N-"))
                .toList();
        assertThat(numbers).hasSize(1_100).doesNotHaveDuplicates().isSorted();
    }
}
