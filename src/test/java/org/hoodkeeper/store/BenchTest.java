package org.hoodkeeper.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.rules.RequirementKind;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** What the bench says of each set. */
@SpringBootTest
@Import({TestPeople.class, StoreStory.class, CountedStatements.class})
class BenchTest {

    @Autowired
    StoreStory story;

    @Autowired
    Bench bench;

    @Autowired
    CountedStatements statements;

    @BeforeEach
    void aStore() {
        story.begin("2026-09-01T15:00").set("S-098", "H20", "2026-08-31T09:00");
    }

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    private List<Why> why(String label, RequirementKind kind, String at) {
        return story.shelf(label, at).readiness().barring().stream()
                .filter(reason -> reason.kind() == kind)
                .map(Reason::why)
                .toList();
    }

    /** ACoP L5, 181 and 182: monthly; unused before the next use, and never more than three months apart. */
    @Test
    void anUnusedSetIsDueBeforeItsNextUseAndOverdueAfterThreeMonths() {
        story.upToDate("S-098", "2026-09-01T14:00").on("2026-12-02T00:30");
        assertThat(story.shelf("S-098", "2026-09-15T12:00").state()).isEqualTo(ShelfSet.State.READY);
        assertThat(why("S-098", RequirementKind.EXAMINATION, "2026-10-01T23:59"))
                .isEmpty();
        assertThat(why("S-098", RequirementKind.EXAMINATION, "2026-11-10T12:00"))
                .containsExactly(Why.DUE_BEFORE_USE);
        assertThat(why("S-098", RequirementKind.EXAMINATION, "2026-12-01T23:59"))
                .containsExactly(Why.DUE_BEFORE_USE);
        assertThat(why("S-098", RequirementKind.EXAMINATION, "2026-12-02T00:00"))
                .containsExactly(Why.OVERDUE_UNUSED);
    }

    @Test
    void aSetFreshFromDeliveryWaitsForItsExaminationAndItsFlow() {
        ShelfSet fresh = story.shelf("S-098", "2026-09-01T15:00");
        assertThat(fresh.state()).isEqualTo(ShelfSet.State.BLOCKED);
        assertThat(fresh.readiness().barring())
                .extracting(Reason::kind)
                .containsExactly(RequirementKind.EXAMINATION, RequirementKind.FLOW);
        assertThat(SetStep.next(fresh)).containsExactly(SetStep.EXAMINE, SetStep.FLOW_CHECK, SetStep.CLEAN);
        assertThat(SetStep.possible(fresh)).doesNotContain(SetStep.ISSUE, SetStep.RETURN, SetStep.MEND);
    }

    @Test
    void aFlowBelowTheMinimumTakesTheSetOutOfUse() {
        story.upToDate("S-098", "2026-09-01T14:00").flowChecked("S-098", "169", "2026-09-01T14:30");
        ShelfSet failed = story.shelf("S-098", "2026-09-01T15:00");
        assertThat(failed.state()).isEqualTo(ShelfSet.State.BLOCKED);
        assertThat(failed.isHeld(Hold.Why.DEFECT)).isTrue();
        assertThat(why("S-098", RequirementKind.FLOW, "2026-09-01T15:00")).containsExactly(Why.FAILED);
        // the hold is lifted when the flow is right again
        assertThat(SetStep.next(failed)).startsWith(SetStep.FLOW_CHECK, SetStep.RELEASE);
    }

    @Test
    void aWithdrawnSetIsWithdrawnWhateverElseIsInOrder() {
        story.upToDate("S-098", "2026-09-01T14:00");
        story.held("S-098", Hold.Why.WITHDRAWN, "2026-09-01T14:30");
        ShelfSet withdrawn = story.shelf("S-098", "2026-09-01T15:00");
        assertThat(withdrawn.state()).isEqualTo(ShelfSet.State.WITHDRAWN);
        assertThat(SetStep.possible(withdrawn)).contains(SetStep.RELEASE).doesNotContain(SetStep.ISSUE);
    }

    @Test
    void whatNeedsDoingComesFirst() {
        story.upToDate("S-098", "2026-09-01T14:00")
                .set("S-001", "H40", "2026-08-31T09:00")
                .set("S-002", "H40", "2026-08-31T09:00")
                .upToDate("S-002", "2026-09-01T14:00");
        List<ShelfSet> sets = story.in(() -> bench.of(story.site().id(), story.instant("2026-09-01T15:01")));
        assertThat(sets).extracting(ShelfSet::label).containsExactly("S-001", "S-002", "S-098");
        assertThat(sets)
                .extracting(ShelfSet::state)
                .containsExactly(ShelfSet.State.BLOCKED, ShelfSet.State.READY, ShelfSet.State.READY);
    }

    @Test
    void theNumberOfStatementsDoesNotGrowWithTheSets() {
        int forOne =
                statements.during(() -> story.in(() -> bench.of(story.site().id(), story.instant("2026-09-01T15:01"))));
        for (int i = 0; i < 12; i++) {
            story.set("S-3" + i, "H20", "2026-08-31T09:00").upToDate("S-3" + i, "2026-09-01T14:00");
        }
        int forMany =
                statements.during(() -> story.in(() -> bench.of(story.site().id(), story.instant("2026-09-01T15:01"))));
        // one more: no instrument is asked for until a check names one
        assertThat(forMany).isBetween(forOne, forOne + 1);
    }
}
