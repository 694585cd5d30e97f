package org.hoodkeeper.web.officer;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hoodkeeper.web.sheet.Desk.status;
import static org.hoodkeeper.web.sheet.Desk.text;

import java.time.Instant;
import java.util.List;
import java.util.Set;
import org.hoodkeeper.evidence.TestSite;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.Posting;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.transaction.support.TransactionTemplate;

/** Board, person and set at a past moment, as known then and as known now, and what was told in between. */
@RecordingPage
class MomentPagesTest {

    private static final Instant DAY = Instant.parse("2026-02-03T09:00:00Z");

    @Autowired
    Desk desk;

    @Autowired
    Ledger ledger;

    @Autowired
    TransactionTemplate transaction;

    private Desk.Seat officer;
    private RecordId training;

    @BeforeEach
    void everythingIsToldLate() {
        officer = desk.sit(Role.OFFICER);
        TestSite.Laid laid = officer.laid;
        tell(Draft.of(new Posting(Posting.Change.POSTED), laid.worker(), DAY).item(laid.task()));
        training = tell(Draft.of(new Training(Outcome.PASS, true, "2", false, null), laid.worker(), DAY)
                .scope("HOOD-A"));
        tell(Draft.of(
                new MedicalOutcome(MedicalOutcome.Result.FIT, Set.of(), null, null, null, false, null, null),
                laid.worker(),
                DAY));
    }

    private RecordId tell(Draft draft) {
        return officer.laid.in(() -> transaction.execute(status -> ledger.append(officer.laid.author(), draft)));
    }

    @ParameterizedTest
    @ValueSource(strings = {"/board", "/workers/W-1", "/sets/H-1"})
    void thePageSaysWhichMomentAndWhichKnowledgeItShows(String path) {
        assertThat(text(officer.get(path + "?at=2026-02-10T06:00&known=then")))
                .contains("10 Feb 2026, 06:00, as known then; computed anew.");
        assertThat(text(officer.get(path + "?at=2026-02-10T06:00&known=now")))
                .contains("10 Feb 2026, 06:00, as known now (");
        assertThat(text(officer.get(path))).doesNotContain("Told since, about this moment");
    }

    @ParameterizedTest
    @ValueSource(strings = {"/board", "/workers/W-1"})
    void whatWasToldSinceIsListedWithWhoAndHowLate(String path) {
        for (String known : List.of("then", "now")) {
            String page = text(officer.get(path + "?at=2026-02-10T06:00&known=" + known));
            assertThat(page)
                    .contains("Told since, about this moment", "/records/" + training, "days late: ")
                    .contains("Verdicts that turned", "not judged");
        }
        assertThat(text(officer.get(path + "?at=2026-01-20T06:00&known=then"))).doesNotContain("/records/" + training);
    }

    @Test
    void theSetPageSaysWhatItsStateWasThenAndIsNow() {
        String page = text(officer.get("/sets/H-1?at=2026-02-10T06:00&known=then"));
        assertThat(page).contains("As known then").doesNotContain("/sets/H-1/flow-check");
        assertThat(text(officer.get("/sets/H-1?at=not-a-time"))).contains("not-a-time");
    }

    @Test
    void whoMayNotSeeOutcomesDoesNotLearnThatOneWasToldLate() {
        Desk.Seat supervisor = desk.sit(officer.laid, Role.SUPERVISOR);
        for (String path : List.of("/board", "/workers/W-1")) {
            String page = text(supervisor.get(path + "?at=2026-02-10T06:00&known=now"));
            assertThat(page).contains("Told since, about this moment").doesNotContain("medical outcome");
            assertThat(text(officer.get(path + "?at=2026-02-10T06:00&known=now")))
                    .contains("medical outcome");
        }
        assertThat(status(desk.sit(officer.laid, Role.STOREKEEPER).get("/board?at=2026-02-10T06:00")))
                .isEqualTo(403);
    }
}
