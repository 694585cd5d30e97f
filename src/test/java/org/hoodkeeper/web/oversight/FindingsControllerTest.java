package org.hoodkeeper.web.oversight;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hoodkeeper.web.sheet.Desk.status;
import static org.hoodkeeper.web.sheet.Desk.text;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hoodkeeper.evidence.TestSite;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.test.web.servlet.MvcResult;
import org.springframework.transaction.support.TransactionTemplate;

/** The officer sees what went wrong, gives it to somebody, and closes it with what was done. */
@RecordingPage
class FindingsControllerTest {

    @Autowired
    Desk desk;

    @Autowired
    Ledger ledger;

    @Autowired
    TransactionTemplate transaction;

    private Desk.Seat seat;
    private RecordId wear;

    /** Somebody untrained wore an unproven set yesterday, long before this site kept its record here. */
    @BeforeEach
    void somebodyWoreItWithNoCover() {
        seat = desk.sit(Role.OFFICER);
        Instant from = Instant.now().minus(Duration.ofHours(30));
        wear = seat.laid.in(() -> transaction.execute(status -> ledger.append(
                seat.laid.author(),
                Draft.of(new Wear(seat.laid.task(), Wear.Step.WHOLE), seat.laid.worker(), from)
                        .item(seat.laid.hood())
                        .until(from.plus(Duration.ofHours(2))))));
    }

    private MvcResult send(String path, String... namesAndValues) {
        Map<String, String> fields = new LinkedHashMap<>();
        fields.put("formKey", UUID.randomUUID().toString());
        for (int i = 0; i < namesAndValues.length; i += 2) {
            fields.put(namesAndValues[i], namesAndValues[i + 1]);
        }
        return seat.post("/findings/" + wear + "/protection-gap" + path, fields);
    }

    @Test
    void aGapIsListedAndAWearBeforeTheRecordBeganIsNoControlFailure() {
        String page = text(seat.get("/findings"));
        assertThat(page)
                .contains("Open findings: 1", "/findings/" + wear + "/protection-gap", "Ada Invented", "BLAST with H-1")
                .contains("No record was kept here yet")
                .doesNotContain("/control-failure\"");
        assertThat(text(seat.get("/findings?who=bo"))).contains("No finding fits");
        assertThat(text(seat.get("/findings?who=w-1&sort=PROTECTION_GAP"))).contains("Ada Invented");
        assertThat(text(seat.get("/findings?sort=CONTROL_FAILURE"))).contains("No finding fits");
        assertThat(text(seat.get("/findings?sort=NONSENSE&from=yesterday"))).contains("“yesterday” is no day");
        assertThat(status(seat.get("/records?kind=NONSENSE&only=late"))).isEqualTo(200);
    }

    /** 2.5 mg/m³ is 25 times a limit of 0.1, and the hood protects 20 times: the page says so, and on which record. */
    @Test
    void aGapOfExposureSaysItsFigureAndItsRecord() {
        seat.laid.in(() -> transaction.execute(status -> {
            Instant before = TestSite.BEGINNING.plusSeconds(3600);
            ledger.append(
                    seat.laid.author(),
                    Draft.of(
                                    new Limit(
                                            new BigDecimal("0.1"),
                                            "mg/m3",
                                            null,
                                            Set.of(FilterKind.PARTICLE),
                                            false,
                                            "EH40",
                                            Mark.VERIFIED),
                                    seat.laid.site().id(),
                                    before)
                            .scope("silica"));
            return ledger.append(
                    seat.laid.author(),
                    Draft.of(
                                    new ExposureResult(new BigDecimal("2.5"), "mg/m3", false, null, null, null, null),
                                    seat.laid.task(),
                                    before.plusSeconds(60))
                            .scope("silica"));
        }));
        String page = text(seat.get("/findings/" + wear + "/protection-gap"));
        assertThat(page)
                .contains("<dt>Protection is enough</dt>", "25", "20", "The record it rests on")
                .contains("/tasks/BLAST/sheet\"", "Assessment sheet of BLAST");
    }

    @Test
    void itIsGivenToSomebodyAndClosedWithWhatWasDone() {
        String page = text(seat.get("/findings/" + wear + "/protection-gap"));
        assertThat(page).contains("Ada Invented wore it with no cover", "Nothing yet.");
        Matcher owner = Pattern.compile("<option value=\"([0-9a-f-]{36})\"").matcher(page);
        assertThat(owner.find()).isTrue();
        String day = LocalDate.now(ZoneId.of("Europe/London")).plusDays(7).toString();
        assertThat(status(send("/owner", "step", "check", "owner", "", "dueOn", day)))
                .isEqualTo(422);
        for (String unknown : List.of("x", owner.group(1))) {
            MvcResult noDay = send("/owner", "step", "check", "owner", unknown, "dueOn", "soon");
            assertThat(status(noDay)).as(unknown).isEqualTo(422);
            assertThat(text(noDay)).contains("value=\"soon\"");
        }
        assertThat(status(send("/owner", "step", "check", "owner", owner.group(1), "dueOn", day)))
                .isEqualTo(200);
        assertThat(status(send("/owner", "step", "record", "owner", owner.group(1), "dueOn", day)))
                .isEqualTo(302);
        assertThat(text(seat.get("/findings"))).contains("Given to somebody");
        assertThat(text(seat.get("/findings?owner=" + owner.group(1)))).contains("Ada Invented");
        MvcResult nothing = send("/closing", "step", "check", "action", " ");
        assertThat(status(nothing)).isEqualTo(422);
        assertThat(status(send("/closing", "step", "record", "action", "trained the same day")))
                .isEqualTo(302);
        assertThat(text(seat.get("/findings"))).contains("Nothing is open.");
        assertThat(text(seat.get("/findings?state=CLOSED"))).contains("Ada Invented");
        assertThat(text(seat.get("/findings/" + wear + "/protection-gap"))).contains("closed. trained the same day");
        assertThat(status(send("/closing", "step", "check", "action", "again"))).isEqualTo(422);
    }

    @Test
    void aFindingThatIsNotThereIsNotFound() {
        assertThat(status(seat.get("/findings/" + UUID.randomUUID() + "/protection-gap")))
                .isEqualTo(404);
        assertThat(status(seat.get("/findings/not-an-id/protection-gap"))).isEqualTo(404);
        assertThat(status(seat.get("/findings/" + wear + "/control-failure"))).isEqualTo(404);
        assertThat(status(seat.get("/findings/" + wear + "/other"))).isEqualTo(404);
    }
}
