package org.hoodkeeper.web.oversight;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hoodkeeper.web.sheet.Desk.status;
import static org.hoodkeeper.web.sheet.Desk.text;

import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import java.util.UUID;
import org.hoodkeeper.access.AuditChain;
import org.hoodkeeper.access.AuditEntry;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.database.TestDatabase;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.ledger.Sealer;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.test.web.servlet.MvcResult;
import org.springframework.transaction.support.TransactionTemplate;

/** The officer checks the chains, takes the head along, and holds an earlier one against them. */
@RecordingPage
class VerifyControllerTest {

    @Autowired
    Desk desk;

    @Autowired
    Ledger ledger;

    @Autowired
    Sealer sealer;

    @Autowired
    AuditChain chain;

    @Autowired
    AuditTrail audit;

    @Autowired
    JdbcTemplate jdbc;

    @Autowired
    TransactionTemplate transaction;

    private Desk.Seat officer;
    private RecordId training;

    @BeforeEach
    void aSiteWithAFewSealedRecords() {
        officer = desk.sit(Role.OFFICER);
        training = officer.laid.in(() -> transaction.execute(status -> ledger.append(
                officer.laid.author(),
                Draft.of(
                                new Training(Outcome.PASS, true, "2", false, "Cy Invented"),
                                officer.laid.worker(),
                                java.time.Instant.parse("2026-02-03T09:00:00Z"))
                        .scope("HOOD-A"))));
        officer.laid.run(() -> audit.record(officer.laid.site().id(), AuditEntry.of("test.entry")));
        seal();
    }

    private void seal() {
        officer.laid.run(() -> {
            while (sealer.seal(officer.laid.site().id()) > 0) {
                // until nothing is left
            }
            while (chain.seal(officer.laid.site().id()) > 0) {
                // until nothing is left
            }
        });
    }

    private String check() {
        MvcResult started = officer.post("/verify", Map.of());
        assertThat(status(started)).isEqualTo(302);
        String to = String.valueOf(started.getResponse().getRedirectedUrl());
        return text(officer.get(to.substring(to.indexOf("/verify/"))));
    }

    private long noted(String kind, String detail) {
        return officer.laid.in(() -> transaction.execute(status -> jdbc.queryForObject(
                "select count(*) from audit_event where site_id = ? and kind = ? and detail like ?",
                Long.class,
                officer.laid.site().id().value(),
                kind,
                detail)));
    }

    @Test
    void aWholeChainIsSaidToBeWholeAndTheCheckIsNoted() {
        assertThat(text(officer.get("/verify"))).contains("Nobody has checked the records from here yet.");
        // two models, two sets with their receipt, a calibration, a task's assessment and the training: seven entries
        assertThat(check()).contains("Every record is whole: 7 entries", "7 sealed entries, 0 not sealed yet");
        assertThat(text(officer.get("/verify"))).contains("Every record is whole: 7 entries");
        assertThat(noted("chain.verified", "whole 7")).isEqualTo(1);
        assertThat(text(officer.get("/trail?sort=PROOF"))).contains("Checked every record", "whole 7");
        assertThat(text(officer.get("/verify?lang=es"))).contains("Todos los registros están íntegros: 7");
        assertThat(status(officer.get("/verify/" + UUID.randomUUID()))).isEqualTo(404);
        assertThat(status(officer.get("/verify/not-an-id"))).isEqualTo(404);
    }

    @Test
    void whatWasChangedRemovedOrPutInIsNamedWithItsPlace() throws SQLException {
        asOwner("update ledger_record set body = '{\"outcome\":\"FAIL\"}' where id = '" + training + "'");
        asOwner("delete from audit_event where kind = 'test.entry' and site_id = '"
                + officer.laid.site().id() + "'");
        asOwner(
                "insert into ledger_entry select site_id, gen_random_uuid(), recorded_at - interval '1 second', written_at, account_id, via, records,"
                        + " records_digest, hash from ledger_entry where id = (select entry_id from ledger_record where id = '"
                        + training + "')");
        String page = check();
        assertThat(page)
                .contains("A record was changed", "Records, entry 7", "/records/" + training)
                .contains("An event was removed", "Trail, seal 1")
                .contains("An entry was put in", "Keep the database as it is.")
                .doesNotContain("Every record is whole");
        assertThat(noted("chain.verified", "broken % 7")).isEqualTo(1);
    }

    @Test
    void theHeadIsTakenAlongAndHeldAgainstALaterDay() throws Exception {
        MvcResult file = officer.get("/verify/head.txt");
        String code = officer.laid.site().code();
        assertThat(file.getResponse().getHeader("Content-Disposition")).contains(code + "-head-");
        List<String> lines = text(file).lines().toList();
        assertThat(lines.get(0)).startsWith("# Hoodkeeper " + code);
        assertThat(lines.get(1)).matches("head " + code + " record 7 [0-9a-f]{64}");
        assertThat(lines.get(2)).matches("head " + code + " audit [1-9][0-9]* [0-9a-f]{64}");
        assertThat(lines.get(3)).matches("head - audit [0-9]+ [0-9a-f]{64}");
        assertThat(text(officer.get("/verify/head"))).contains(lines.get(1), "Taken out by");
        assertThat(noted("head.taken", "7 %")).isEqualTo(2);
        String same = text(officer.post("/verify/earlier", Map.of("head", "as kept in the safe:\n" + lines.get(1))));
        assertThat(same).contains("Still there: the earlier head of the records is entry 7 of today’s chain.");
        assertThat(noted("head.compared", "SAME record 7")).isEqualTo(1);
        String forged = lines.get(1).substring(0, lines.get(1).length() - 4)
                + (lines.get(1).endsWith("0000") ? "1111" : "0000");
        assertThat(text(officer.post("/verify/earlier", Map.of("head", forged))))
                .contains(
                        "Not there any more: entry 7 of the records is another one today.",
                        lines.get(1).split(" ")[4]);
        String tooFar = lines.get(1).replace("record 7 ", "record 900 ");
        assertThat(text(officer.post("/verify/earlier", Map.of("head", tooFar))))
                .contains("does not reach entry 900");
        assertThat(text(officer.post(
                        "/verify/earlier", Map.of("head", lines.get(1).replace(code, "elsewhere")))))
                .contains("That head is of another site.");
        asOwner("update ledger_seal set hash = sha256('x') where position = 7 and site_id = '"
                + officer.laid.site().id() + "'");
        assertThat(text(officer.post("/verify/earlier", Map.of("head", lines.get(1)))))
                .contains("Not there any more");
    }

    @Test
    void whatIsNoHeadIsRefusedAndKept() {
        for (String nonsense : List.of(
                "head", "head {0}", "head x record one 00", "head x record 99999999999999999999 " + "0".repeat(64))) {
            MvcResult refused = officer.post("/verify/earlier", Map.of("head", nonsense + "\nhead"));
            assertThat(status(refused)).as(nonsense).isEqualTo(422);
        }
        MvcResult nothing = officer.post("/verify/earlier", Map.of("head", "no such line"));
        assertThat(status(nothing)).isEqualTo(422);
        assertThat(text(nothing)).contains("begins with “head”, or choose the file", ">no such line</textarea>");
        assertThat(status(officer.post("/verify/earlier", Map.of("head", "", "file", "not a file"))))
                .isEqualTo(422);
    }

    /** Every code of the two chains has its words: it is read on the worst day. */
    @Test
    void everySortOfBreakHasItsWords() throws Exception {
        Properties words = new Properties();
        try (var in = java.nio.file.Files.newBufferedReader(
                java.nio.file.Path.of("src/main/resources/messages/verify.properties"))) {
            words.load(in);
        }
        for (String file : List.of("ledger/Chain", "ledger/ChainPart", "access/AuditChain")) {
            String source = java.nio.file.Files.readString(
                    java.nio.file.Path.of("src/main/java/org/hoodkeeper/" + file + ".java"));
            var codes = java.util.regex.Pattern.compile(
                            "\"((?:record|entry|seal|head|private|erased|event)\\.[a-z]+)\"")
                    .matcher(source)
                    .results()
                    .map(found -> found.group(1))
                    .toList();
            assertThat(codes).as(file).isNotEmpty();
            assertThat(codes).allSatisfy(code -> assertThat(words).containsKey("verify.what." + code));
        }
    }

    /** Lifts the forced row security for one statement, as only the owner of the tables can. */
    private static void asOwner(String statement) throws SQLException {
        List<String> tables = List.of("ledger_record", "ledger_entry", "ledger_seal", "audit_event");
        try (Connection owner = TestDatabase.asOwner();
                Statement sql = owner.createStatement()) {
            for (String table : tables) {
                sql.execute("alter table " + table + " no force row level security");
            }
            try {
                sql.execute(statement);
            } finally {
                for (String table : tables) {
                    sql.execute("alter table " + table + " force row level security");
                }
            }
        }
    }
}
