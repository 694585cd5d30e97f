package org.hoodkeeper.web.oversight;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hoodkeeper.web.sheet.Desk.status;
import static org.hoodkeeper.web.sheet.Desk.text;

import java.sql.SQLException;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.database.Dump;
import org.hoodkeeper.database.TestClock;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.test.web.servlet.MvcResult;

/** The officer sees what may be erased and why, looks it over, and erases it in the second step. */
@RecordingPage
class ErasureControllerTest {

    @Autowired
    Desk desk;

    private final String secret = "Secret" + UUID.randomUUID().toString().replace("-", "");

    @AfterEach
    void realTimeAgain() {
        TestClock.reset();
    }

    /** By form, at a time of the service's clock. @return the id that the answer leads to */
    private static RecordId records(Desk.Seat seat, String path, String... namesAndValues) {
        MvcResult recorded = send(seat, path, "record", namesAndValues);
        assertThat(status(recorded)).as(text(recorded)).isEqualTo(302);
        String target = String.valueOf(recorded.getResponse().getRedirectedUrl());
        return RecordId.of(target.substring(target.lastIndexOf('/') + 1));
    }

    private static MvcResult send(Desk.Seat seat, String path, String step, String... namesAndValues) {
        Map<String, String> fields = new LinkedHashMap<>();
        fields.put("formKey", UUID.randomUUID().toString());
        fields.put("step", step);
        for (int i = 0; i < namesAndValues.length; i += 2) {
            fields.put(namesAndValues[i], namesAndValues[i + 1]);
        }
        return seat.post(path, fields);
    }

    /** A report of symptoms and a training by form; after 40 years from the last entry, and the end of employment, both may go. */
    @Test
    void whatWasToldByFormIsErasedByForm() throws SQLException {
        Desk.Seat officer = desk.sit(Role.OFFICER, Role.TRAINER);
        Desk.Seat health = desk.sit(officer.laid, Role.HEALTH);
        TestClock.set(Instant.parse("2026-05-12T12:00:00Z"));
        RecordId training = records(
                officer,
                "/workers/W-1/training",
                "model",
                "HOOD-A",
                "outcome",
                "PASS",
                "demonstrated",
                "YES",
                "external",
                "NO",
                "trainer",
                secret);
        RecordId report = records(officer, "/workers/W-1/symptoms", "note", secret);
        assertThat(Dump.tablesWith(secret)).contains("ledger_private");
        assertThat(text(officer.get("/retention/TRAINING"))).contains("Nothing of this kind may be erased today");
        MvcResult early = send(officer, "/retention/TRAINING", "check", "records", training.toString());
        assertThat(status(early)).isEqualTo(422);
        assertThat(text(early)).contains("no end is known yet");
        records(officer, "/workers/W-1/employment", "change", "ENDED", "day", "2026-06-30");
        TestClock.set(Instant.parse("2026-05-13T12:00:00Z"));
        RecordId review = records(health, "/symptoms/" + report + "/review", "note", secret);
        TestClock.set(Instant.parse("2066-05-13T12:00:00Z"));

        String page = text(officer.get("/retention/TRAINING"));
        assertThat(page)
                .contains(
                        "May be erased today, the oldest first: training, 1",
                        "Ada Invented",
                        "30 Jun 2026",
                        "no clause")
                .doesNotContain(secret, "checked=");
        MvcResult none = send(officer, "/retention/TRAINING", "check");
        assertThat(status(none)).isEqualTo(422);
        assertThat(text(none)).contains("Pick at least one record");
        MvcResult check = send(officer, "/retention/TRAINING", "check", "records", training.toString());
        assertThat(status(check)).as(text(check)).isEqualTo(200);
        assertThat(text(check)).contains("Erase these records for good?", "Ada Invented");
        assertThat(status(officer.get("/records/" + training))).isEqualTo(200);
        assertThat(text(officer.get("/records/" + training))).contains("How long it is kept");
        MvcResult erased = send(officer, "/retention/TRAINING", "record", "records", training.toString());
        assertThat(status(erased)).as(text(erased)).isEqualTo(302);
        assertThat(text(officer.get("/retention"))).contains("training, records 1, by");
        assertThat(text(officer.get("/records/" + training)))
                .contains("A record was erased here: training, 13 May 2066", "no clause", "30 Jun 2026");
        MvcResult twice = send(officer, "/retention/TRAINING", "check", "records", training.toString());
        assertThat(status(twice)).isEqualTo(422);
        assertThat(text(twice)).contains("This record was erased already");

        assertThat(status(officer.get("/retention/SYMPTOM_REPORT")))
                .as("the officer knows of no report")
                .isEqualTo(404);
        assertThat(status(health.get("/retention/TRAINING"))).isEqualTo(404);
        assertThat(text(health.get("/retention/SYMPTOM_REPORT"))).contains("Nothing of this kind may be erased today");
        assertThat(text(send(health, "/retention/SYMPTOM_REPORT", "check", "records", report.toString())))
                .contains("kept until the end of 13 May 2066 by regulation 11(3)");
        TestClock.set(Instant.parse("2066-05-14T12:00:00Z"));
        for (RecordId one : List.of(report, review)) {
            assertThat(status(send(health, "/retention/SYMPTOM_REPORT", "record", "records", one.toString())))
                    .isEqualTo(302);
        }
        assertThat(Dump.tablesWith(secret)).isEmpty();
    }

    @Test
    void aKindThatIsNoneIsNotFound() {
        Desk.Seat officer = desk.sit(Role.OFFICER);
        assertThat(status(officer.get("/retention/NONSENSE"))).isEqualTo(404);
        assertThat(status(officer.get("/retention/TRAINING?from=nonsense"))).isEqualTo(200);
        assertThat(text(send(officer, "/retention/TRAINING", "check", "records", "nonsense")))
                .contains("No such record");
    }
}
