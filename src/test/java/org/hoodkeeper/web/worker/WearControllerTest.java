package org.hoodkeeper.web.worker;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.assessment.Verdict;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.reporting.StoredAnswers;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.transaction.support.TransactionTemplate;

@RecordingPage
class WearControllerTest {

    @Autowired
    Desk desk;

    @Autowired
    StoredAnswers answers;

    @Autowired
    Ledger ledger;

    @Autowired
    TransactionTemplate transaction;

    @Test
    void inAndOutAgain() {
        Desk.Seat worker = desk.sit(Role.WORKER);
        var entry = worker.records("/workers/W-1/wear/entry", "set", "H-1", "task", "BLAST", "at", "2026-03-02T07:00");
        assertThat(entry.told().item()).isEqualTo(worker.laid.hood().value());
        assertThat(worker.refuses("/workers/W-1/wear/entry", "set", "H-1", "task", "BLAST", "at", "2026-03-02T07:30"))
                .contains("has not come out");
        var exit = desk.sit(worker.laid, Role.SUPERVISOR).records("/workers/W-1/wear/exit", "at", "2026-03-02T09:00");
        assertThat(exit.told().item()).isEqualTo(worker.laid.hood().value());
        assertThat(Desk.status(worker.get("/workers/W-2/wear/exit"))).isEqualTo(404);
    }

    /** Going in is a fact; that the answer was no is said before, said after, and kept. */
    @Test
    void whoIsNotClearedGoesInOnRecordAndTheGateIsTold() {
        Desk.Seat gate = desk.sit(Role.SUPERVISOR);
        Map<String, String> typed = new LinkedHashMap<>(
                Map.of("set", "H-1", "task", "BLAST", "at", "2026-03-02T07:00", "formKey", "gate-1", "step", "check"));
        assertThat(Desk.text(gate.post("/workers/W-1/wear/entry", typed)))
                .contains("Answer at the gate", "Not cleared. The way in is recorded", "Why not");
        typed.put("step", "record");
        String target = String.valueOf(
                gate.post("/workers/W-1/wear/entry", typed).getResponse().getRedirectedUrl());
        assertThat(Desk.text(gate.get(target.substring(target.indexOf("/told/")))))
                .contains("Not cleared. The way in is recorded");
        RecordId entry = new RecordId(UUID.fromString(target.substring(target.lastIndexOf('/') + 1)));
        assertThat(atGate(gate, entry)).isEqualTo(Verdict.NOT_CLEARED);
        RecordId corrected = gate.laid.in(() -> transaction.execute(status -> ledger.append(
                gate.laid.author(),
                Draft.of(
                                new Wear(gate.laid.task(), Wear.Step.ENTRY),
                                gate.laid.worker(),
                                Instant.parse("2026-03-02T07:05:00Z"))
                        .item(gate.laid.hood())
                        .correcting(entry, "five minutes later"))));
        assertThat(atGate(gate, corrected))
                .as("a slip of the time takes no refusal away")
                .isEqualTo(Verdict.NOT_CLEARED);
    }

    private @Nullable Verdict atGate(Desk.Seat gate, RecordId entry) {
        return gate.laid.in(() -> answers.atGate(gate.laid.site().id(), entry));
    }

    /** The clocks went back in London on 25 October 2026 at 02:00: 01:30 occurred at 00:30 UTC and again at 01:30 UTC. */
    @Test
    void aTimeThatOccursTwiceIsAskedBack() {
        Desk.Seat gate = desk.sit(Role.SUPERVISOR);
        String[] typed = {"set", "H-1", "task", "BLAST", "at", "2026-10-25T01:30"};
        assertThat(gate.refuses("/workers/W-1/wear/entry", typed))
                .contains("occurs twice", "value=\"EARLIER\"", "value=\"LATER\"");
        var entry = gate.records(
                "/workers/W-1/wear/entry",
                "set",
                "H-1",
                "task",
                "BLAST",
                "at",
                "2026-10-25T01:30",
                "atOccurrence",
                "LATER");
        assertThat(entry.told().from()).isEqualTo(Instant.parse("2026-10-25T01:30:00Z"));
    }

    @Test
    void aSetThatIsNotThereIsRefusedBesideItsField() {
        assertThat(desk.sit(Role.SUPERVISOR).refuses("/workers/W-1/wear/entry", "set", "H-9", "task", "BLAST"))
                .contains("H-9", "href=\"#set\"");
    }

    @Test
    void whatHasNotHappenedIsRefusedBesideItsTime() {
        assertThat(desk.sit(Role.SUPERVISOR)
                        .refuses("/workers/W-1/wear/entry", "set", "H-1", "task", "BLAST", "at", "2099-01-01T06:00"))
                .contains("still to come", "href=\"#at\"");
    }
}
