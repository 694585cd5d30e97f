package org.hoodkeeper.web.hygienist;

import static org.assertj.core.api.Assertions.assertThat;

import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** The hood's battery runs 480 min when new. */
@RecordingPage
class PlanControllerTest {

    @Autowired
    Desk desk;

    /** Silica at 0.5 of a limit of 0.1 mg/m³: the hood (TH2, 20) is enough, and the class of the mask is not known to the rules. */
    private Desk.Seat withALimit(Role... roles) {
        Desk.Seat seat = desk.sit(roles);
        Air.limit(desk.sit(seat.laid, Role.HYGIENIST));
        return seat;
    }

    @Test
    void aScheduleSaysOnWhatItRestsOrThatItRestsOnNothing() {
        Desk.Seat seat = withALimit(Role.HYGIENIST, Role.OFFICER);
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
                .contains("40 h: Dee Invented", "loading test of 3 March, 80 h, safety factor 2");
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
                Desk.text(withALimit(Role.HYGIENIST).get("/tasks/BLAST/plan")).replace("\u202f", " ");
        assertThat(page)
                .contains(
                        "powered hood or helmet: no limit",
                        "Guidance for asbestos work, powered and air-fed: a rest after 2 h, at most 6 h a day",
                        "<li>MASK-B: class not known to the rules</li>");
    }

    @Test
    void nonsenseInTheAddressIsSaidBesideItsField() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        for (String wrong : new String[] {
            "stint=0",
            "stint=1441",
            "stint=x",
            "capacity=0",
            "load=101",
            "reserve=-1",
            "start=noon",
            "humidity=x",
            "humidity=-1",
            "humidity=101",
            "workRate=0.4",
            "workRate=5"
        }) {
            assertThat(Desk.text(seat.get("/tasks/BLAST/plan?" + wrong)))
                    .as(wrong)
                    .contains(wrong.substring(0, wrong.indexOf('=')) + "-error");
        }
        assertThat(Desk.text(withALimit(Role.HYGIENIST).get("/tasks/BLAST/plan?reserve=480")))
                .contains("nothing is left to plan with");
    }
}
