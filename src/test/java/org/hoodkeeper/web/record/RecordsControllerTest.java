package org.hoodkeeper.web.record;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hoodkeeper.web.sheet.Desk.text;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import org.hoodkeeper.facts.Observation;
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
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.transaction.support.TransactionTemplate;

/** Every record is found, however many there are. */
@RecordingPage
class RecordsControllerTest {

    private static final Instant NOW = Instant.now();

    @Autowired
    Desk desk;

    @Autowired
    Ledger ledger;

    @Autowired
    TransactionTemplate transaction;

    private Desk.Seat officer;

    @BeforeEach
    void anOfficerAtAnInventedSite() {
        officer = desk.sit(Role.OFFICER);
    }

    private RecordId told(Draft draft) {
        return officer.laid.in(() -> transaction.execute(status -> ledger.append(officer.laid.author(), draft)));
    }

    private RecordId training(Instant at) {
        return told(Draft.of(new Training(Outcome.PASS, true, "2", false, "Cy Invented"), officer.laid.worker(), at)
                .scope("HOOD-A"));
    }

    private static String day(Instant instant) {
        return LocalDate.ofInstant(instant, ZoneOffset.UTC).toString();
    }

    @Test
    void whatDoesNotFitOnOnePageStandsOnTheNext() {
        RecordId oldest = training(NOW.minus(Duration.ofHours(200)));
        for (int hours = 1; hours <= 100; hours++) {
            training(NOW.minus(Duration.ofHours(hours)));
        }
        String first = text(officer.get("/records?kind=TRAINING"));
        assertThat(first)
                .contains("Records found: 101", "kind=TRAINING&amp;page=2")
                .doesNotContain(oldest.toString());
        assertThat(text(officer.get("/records?kind=TRAINING&page=2")))
                .contains("Records found: 101", oldest.toString())
                .doesNotContain("page=3");
        assertThat(text(officer.get("/records?kind=TRAINING&page=77")))
                .contains("Records found: 101", "No such record");
    }

    @Test
    void anOldRecordIsFoundByItsDayAndByWhomItConcerns() {
        Instant then = Instant.parse("2019-03-14T09:00:00Z");
        RecordId old = training(then);
        assertThat(text(officer.get("/records?kind=TRAINING"))).doesNotContain(old.toString());
        assertThat(text(officer.get("/records?from=2019-03-14&until=2019-03-14")))
                .contains("Records found: 1", old.toString());
        assertThat(text(officer.get("/records?from=2019-03-15&until=2019-03-15")))
                .contains("Records found: 0");
        assertThat(text(officer.get("/records?kind=TRAINING&about=ada"))).contains(old.toString());
        assertThat(text(officer.get("/records?about=nobody+of+that+name"))).contains("Records found: 0");
    }

    @Test
    void whatWasToldLateAndWhatWasReplacedIsFound() {
        RecordId late = training(NOW.minus(Duration.ofDays(40)));
        RecordId inTime =
                told(Draft.of(new Observation(Observation.Seen.values()[0], null), officer.laid.worker(), NOW));
        String lateOnes = text(officer.get("/records?only=late&from=" + day(NOW.minus(Duration.ofDays(41)))));
        assertThat(lateOnes).contains(late.toString()).doesNotContain(inTime.toString());
        assertThat(text(officer.get("/records?only=replaced&kind=TRAINING"))).contains("Records found: 0");
    }

    /** A posting may be told ahead; one that had begun before anybody said so is as late as any other record. */
    @Test
    void aPostingIsLateWhenItHadBegunBeforeItWasTold() {
        RecordId backdated = posting(NOW.minus(Duration.ofDays(40)));
        RecordId ahead = posting(NOW.plus(Duration.ofDays(3)));
        String lateOnes =
                text(officer.get("/records?only=late&kind=POSTING&from=" + day(NOW.minus(Duration.ofDays(41)))));
        assertThat(lateOnes).contains(backdated.toString(), "days late: 40").doesNotContain(ahead.toString());
    }

    private RecordId posting(Instant from) {
        return told(Draft.of(new Posting(Posting.Change.POSTED), officer.laid.worker(), from)
                .item(officer.laid.task()));
    }

    @Test
    void aDayThatIsNoneIsSaidAndKept() {
        assertThat(text(officer.get("/records?from=14-March"))).contains("“14-March” is no day", "value=\"14-March\"");
    }
}
