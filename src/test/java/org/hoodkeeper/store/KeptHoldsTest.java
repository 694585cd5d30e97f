package org.hoodkeeper.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.access.TestPeople;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.evidence.Acceptances;
import org.hoodkeeper.evidence.Corrections;
import org.hoodkeeper.evidence.Holds;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.web.record.Sight;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** A hold that only acceptance or the safety officer lifts is not got rid of by taking its record back. */
@SpringBootTest
@Import({TestPeople.class, StoreStory.class})
class KeptHoldsTest {

    @Autowired
    StoreStory story;

    @Autowired
    Holds holds;

    @Autowired
    Acceptances acceptances;

    @Autowired
    Corrections corrections;

    @Autowired
    History history;

    @BeforeEach
    void aStore() {
        story.begin("2026-11-20T09:00").set("S-1", "H20", "2026-11-02T09:00");
    }

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    private void assertStays(RecordId hold, Hold.Why why) {
        assertThatThrownBy(() -> story.in(() -> corrections.withdraw(story.viewer(), hold, "told by mistake")))
                .isInstanceOfSatisfying(
                        Refused.class, no -> assertThat(no.code()).isEqualTo("correction.notEntitled"));
        Draft milder = Draft.of(
                new Hold(Hold.Step.PLACED, Hold.Why.OTHER, "milder"),
                story.id("S-1"),
                story.instant("2026-11-20T08:00"));
        assertThatThrownBy(() -> story.in(() -> corrections.correct(story.viewer(), hold, milder, "another sort")))
                .isInstanceOfSatisfying(
                        Refused.class, no -> assertThat(no.code()).isEqualTo("correction.notEntitled"));
        assertThat(story.shelf("S-1", "2026-11-20T09:00").isHeld(why)).isTrue();
        Viewer another =
                new Viewer(story.site().id(), new AccountId(UUID.randomUUID()), Set.of(Role.STOREKEEPER), null, null);
        assertThat(story.in(() ->
                        Sight.of(another, history.find(story.site().id(), hold, story.instant("2026-11-20T09:00")))))
                .isTrue();
    }

    @Test
    void aDeliveryThatAwaitsAcceptanceIsNotLetInByTheStorekeepersCorrection() {
        assertStays(
                story.in(() ->
                        acceptances.await(story.author(), story.id("S-1"), "D-1", story.instant("2026-11-20T08:00"))),
                Hold.Why.NOT_ACCEPTED);
    }

    @Test
    void whatIsImpoundedStaysSoUntilTheSafetyOfficerPutsItRight() {
        RecordId hold = story.held("S-1", Hold.Why.IMPOUNDED, "2026-11-20T08:00");
        assertStays(hold, Hold.Why.IMPOUNDED);
        Viewer officer = new Viewer(story.site().id(), story.viewer().account(), Set.of(Role.OFFICER), null, null);
        story.in(() -> corrections.withdraw(officer, hold, "it was another set"));
        assertThat(story.shelf("S-1", "2026-11-20T09:00").isHeld(Hold.Why.IMPOUNDED))
                .isFalse();
    }

    @Test
    void anOrdinaryHoldIsStillPutRightByTheStorekeeper() {
        RecordId hold = story.held("S-1", Hold.Why.QUARANTINE, "2026-11-20T08:00");
        story.in(() -> corrections.withdraw(story.viewer(), hold, "it was another set"));
        assertThat(List.of(story.shelf("S-1", "2026-11-20T09:00").isHeld(Hold.Why.QUARANTINE)))
                .containsExactly(false);
    }
}
