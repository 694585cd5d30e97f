package org.hoodkeeper.web.oversight;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hoodkeeper.web.sheet.Desk.text;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Observation;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.Id;
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

/** The yearly evaluation's figures, each with what it is made of; what is not on record is said to be no data. */
@RecordingPage
class IndicatorsControllerTest {

    @Autowired
    Desk desk;

    @Autowired
    Ledger ledger;

    @Autowired
    TransactionTemplate transaction;

    private Desk.Seat seat;

    @BeforeEach
    void anOfficerSitsDown() {
        seat = desk.sit(Role.OFFICER);
    }

    private RecordId tell(Draft draft) {
        return seat.laid.in(() -> transaction.execute(status -> ledger.append(seat.laid.author(), draft)));
    }

    private static Instant ago(int minutes) {
        return Instant.now().minus(Duration.ofMinutes(minutes));
    }

    private Draft of(Fact fact, Id subject, int minutesAgo) {
        return Draft.of(fact, subject, ago(minutesAgo));
    }

    @Test
    void withNothingOnRecordNothingIsSaid() {
        String page = text(seat.get("/indicators"));
        assertThat(page)
                .contains("no wear with both ends is on record", "0 looks", "0 wears begun")
                .doesNotContain("95 % interval", "0.0 %");
        assertThat(page.split("no data", -1)).as("seven figures without data").hasSize(8);
    }

    /** An untrained wearer for 2 h is not covered; an entry without an exit is left out and said. */
    @Test
    void hoursWornWithoutCoverLowerTheFirstFigure() {
        tell(of(new Wear(seat.laid.task(), Wear.Step.WHOLE), seat.laid.worker(), 3_000)
                .item(seat.laid.hood())
                .until(ago(2_880)));
        tell(of(new Wear(seat.laid.task(), Wear.Step.ENTRY), seat.laid.worker(), 60)
                .item(seat.laid.hood()));
        assertThat(text(seat.get("/indicators")))
                .contains("0 % of the hours worn were fully covered", "0 h covered", "2.0 h worn", "1 wears left out");
    }

    /** 9 of 10 looks: exactly 55.4 % to 99.8 % (SciPy 1.17.1: 0.554984, 0.997471). */
    @Test
    void looksAreASampleAndHaveTheirInterval() {
        for (int i = 0; i < 10; i++) {
            tell(of(
                    new Observation(i == 0 ? Observation.Seen.LIFTED_IN_AREA : Observation.Seen.WORN_RIGHT, null),
                    seat.laid.worker(),
                    100 + i));
        }
        tell(of(new Observation(Observation.Seen.CLEAR_AT_SEAL, null), seat.laid.worker(), 90));
        assertThat(text(seat.get("/indicators")))
                .contains("90.0 %", "9 worn right", "10 looks", "95 % interval 55.4 % to 99.8 %");
    }

    /** Two days: failed first and passed then, and passed at once: one of two first checks. */
    @Test
    void theFirstCheckOfTheDayCounts() {
        for (Object[] check :
                List.<Object[]>of(new Object[] {Outcome.FAIL, 2_000}, new Object[] {Outcome.PASS, 1_999}, new Object[] {
                    Outcome.PASS, 5_000
                })) {
            tell(of(
                            new PreUseCheck(
                                    Map.of(PreUseCheck.Item.VISOR, (Outcome) check[0]), null, null, null, null, null),
                            seat.laid.hood(),
                            (Integer) check[1])
                    .item(seat.laid.worker()));
        }
        assertThat(text(seat.get("/indicators"))).contains("50.0 %", "1 passed", "2 first checks");
    }

    /** Two wears and one defect of the visor: 500 for 1 000 wears; mended an hour and a half later. */
    @Test
    void defectsAreSetAgainstWearsAndTimedToTheirEnd() {
        tell(of(new Custody(Custody.Claim.ISSUED, null, null), seat.laid.hood(), 3_000)
                .item(seat.laid.worker()));
        for (int minutes : List.of(2_900, 1_900)) {
            tell(of(new Wear(seat.laid.task(), Wear.Step.WHOLE), seat.laid.worker(), minutes)
                    .item(seat.laid.hood())
                    .until(ago(minutes - 60)));
        }
        Instant found = ago(1_800);
        RecordId defect = tell(Draft.of(new Defect(Defect.Step.FOUND, "visor", "scratched"), seat.laid.hood(), found));
        tell(Draft.of(
                        new Defect(Defect.Step.MENDED, "visor", "new visor"),
                        seat.laid.hood(),
                        found.plus(Duration.ofMinutes(90)))
                .item(defect));
        assertThat(text(seat.get("/indicators")))
                .contains(
                        "Defects: visor",
                        "500.0 per 1,000 wears",
                        "1 found",
                        "2 wears begun",
                        "1.5 h together",
                        "1 defects on sets in hand");
    }

    @Test
    void aPeriodThatCannotBeIsSaidOnThePage() {
        assertThat(text(seat.get("/indicators?from=soon"))).contains("“soon” is no day", "from-error");
        assertThat(text(seat.get("/indicators?from=2026-03-02&until=2026-03-01")))
                .contains("lies after the last day", "from-error");
    }
}
