package org.hoodkeeper.web.hygienist;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.transaction.support.TransactionTemplate;

/** The hood's battery runs 480 min when new. */
@RecordingPage
class PlanControllerTest {

    @Autowired
    Desk desk;

    @Autowired
    Ledger ledger;

    @Autowired
    TransactionTemplate transaction;

    /** 480 − 30 = 450 min: from 07:00 the swap is due by 14:30, and flow and battery are looked at at 11:00 and 13:00. */
    @Test
    void whoHasTheHoodSwapsItsBatteryBeforeItIsUsedUp() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST, Role.SUPERVISOR, Role.OFFICER);
        seat.records("/workers/W-1/posting", "task", "BLAST", "at", "2026-01-05T08:00");
        seat.laid.in(() -> transaction.execute(status -> ledger.append(
                seat.laid.author(),
                Draft.of(
                                new Custody(Custody.Claim.ISSUED, null, null),
                                seat.laid.hood(),
                                Instant.now().minus(Duration.ofMinutes(1)))
                        .item(seat.laid.worker()))));
        String page = Desk.text(seat.get("/tasks/BLAST/plan"));
        assertThat(page).contains("1 people at BLAST must swap their battery", "14:30", "11:00, 13:00", "Ada Invented");
        assertThat(Desk.text(seat.get("/tasks/BLAST/plan?stint=450")))
                .contains("Nobody at BLAST who has a set needs another battery");
        // 480 × 0.8 × 0.9 = 345.6, so 345 − 30 = 315 min: two swaps in twelve hours, by 01:15 and 06:30
        assertThat(Desk.text(seat.get("/tasks/BLAST/plan?start=20:00&stint=720&capacity=80&load=90")))
                .contains("01:15, 06:30");
    }

    @Test
    void aScheduleSaysOnWhatItRestsOrThatItRestsOnNothing() {
        Desk.Seat seat = desk.sit(Role.OFFICER);
        assertThat(Desk.text(seat.get("/tasks/BLAST/plan"))).contains("No written basis");
        seat.records(
                "/decisions/filter.longest-use",
                "thing",
                "HOOD-A",
                "value",
                "PT40H",
                "owner",
                "Dee Invented",
                "reason",
                "loading test of 3 March, 80 h, safety factor 2",
                "at",
                "2026-01-06T08:00");
        assertThat(Desk.text(seat.get("/tasks/BLAST/plan")))
                .contains("PT40H: Dee Invented", "loading test of 3 March, 80 h, safety factor 2");
    }

    /** The sign trap: what boils at 70 °C or less has no rule of thumb; 20 ppm give 40 h by it, and a shift counts. */
    @Test
    void theRuleOfThumbIsACheckOnly() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        assertThat(Desk.text(seat.get("/tasks/BLAST/plan?ppm=20&boils=110")))
                .contains("as a check beside another method only: 40.00 h", "8.00 h");
        assertThat(Desk.text(seat.get("/tasks/BLAST/plan?ppm=20&boils=-4.7")))
                .contains("the rule of thumb holds above 70 °C only", "boils-error");
        assertThat(Desk.text(seat.get("/tasks/BLAST/plan?ppm=20"))).contains("Type both", "boils-error");
        assertThat(Desk.text(seat.get("/tasks/BLAST/plan?ppm=201&boils=110"))).contains("ppm-error");
        assertThat(Desk.text(seat.get("/tasks/BLAST/plan?life=31&safety=2"))).contains("change after 15.5 h");
        assertThat(Desk.text(seat.get("/tasks/BLAST/plan?life=0&safety=2"))).contains("life-error");
    }

    @Test
    void publishedWearTimesStandBesideTheSitesOwn() {
        String page =
                Desk.text(desk.sit(Role.HYGIENIST).get("/tasks/BLAST/plan")).replace("\u202f", " ");
        assertThat(page)
                .contains(
                        "powered hood or helmet: no limit",
                        "full mask P3: 2 h, then 30 min of rest; at most 6 h a shift",
                        "Denmark, filtering masks: at most 3 h a day");
    }

    @Test
    void nonsenseInTheAddressIsSaidBesideItsField() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        for (String wrong : new String[] {
            "stint=0", "stint=1441", "stint=x", "capacity=0", "load=101", "reserve=-1", "start=noon", "humidity=x"
        }) {
            assertThat(Desk.text(seat.get("/tasks/BLAST/plan?" + wrong)))
                    .as(wrong)
                    .contains(wrong.substring(0, wrong.indexOf('=')) + "-error");
        }
        assertThat(Desk.text(seat.get("/tasks/BLAST/plan?reserve=480"))).contains("nothing is left to plan with");
    }
}
