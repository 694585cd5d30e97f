package org.hoodkeeper.web.oversight;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hoodkeeper.web.sheet.Desk.status;
import static org.hoodkeeper.web.sheet.Desk.text;

import java.util.UUID;
import org.hoodkeeper.facts.LegalHold;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** How long records are kept and why, and the legal holds that keep them longer. */
@RecordingPage
class RetentionControllerTest {

    @Autowired
    Desk desk;

    @Test
    void eachKindSaysHowLongByWhichClauseAndWhatIsNotKnownSaysSo() {
        String page = text(desk.sit(Role.OFFICER).get("/retention"));
        assertThat(page)
                .contains("Records are kept as uk 2026-", "says. Open legal holds: 0.")
                .contains("40 years from the last entry in the record", "regulation 11(3)")
                .contains("5 years from the day it was made", "regulation 9(4)")
                .contains("40 years from the last entry in the record, where it tells of a person")
                .contains("until employment ends", "common practice")
                .contains("Not known: the rule set does not say. It is kept.");
    }

    @Test
    void aHoldLiesUntilItIsLifted() {
        Desk.Seat seat = desk.sit(Role.OFFICER);
        var placed = seat.records("/legal-hold", "about", "WORKER", "name", "W-1", "reason", "claim of 3 November");
        assertThat(placed.told().fact()).isEqualTo(new LegalHold(LegalHold.Step.PLACED, "claim of 3 November"));
        assertThat(placed.told().subject()).isEqualTo(seat.laid.worker().value());
        assertThat(text(seat.get("/retention")))
                .contains("Open legal holds: 1.", "Ada Invented", "claim of 3 November");
        String lift = "/legal-hold/" + placed.told().id() + "/lift";
        assertThat(text(seat.get(lift))).contains("Lift the legal hold on Ada Invented", "claim of 3 November");
        assertThat(seat.refuses(lift, "reason", " ")).contains("Why may it be lifted?");
        var lifted = seat.records(lift, "reason", "settled");
        assertThat(lifted.told().item()).isEqualTo(placed.told().id().value());
        assertThat(text(seat.get("/retention"))).contains("Open legal holds: 0.");
        assertThat(seat.refuses(lift, "reason", "again")).contains("has been lifted already");
    }

    @Test
    void theWholeSiteASetAndATaskCanBeHeld() {
        Desk.Seat seat = desk.sit(Role.OFFICER);
        assertThat(seat.records("/legal-hold", "about", "SITE", "name", "", "reason", "inspection")
                        .told()
                        .subject())
                .isEqualTo(seat.laid.site().id().value());
        assertThat(text(seat.get("/retention"))).contains("Invented works");
        assertThat(seat.refuses("/legal-hold", "about", "SET", "name", "", "reason", "r"))
                .contains("Say which one");
        assertThat(seat.refuses("/legal-hold", "about", "SITE", "name", "W-1", "reason", "r"))
                .contains("takes no name");
        assertThat(seat.refuses("/legal-hold", "about", "TASK", "name", "NONE", "reason", "r"))
                .contains("This site has no “NONE” of that sort");
        assertThat(seat.refuses("/legal-hold", "about", "", "name", "W-1", "reason", ""))
                .contains("On what", "Why");
    }

    @Test
    void onlyALegalHoldIsLifted() {
        Desk.Seat seat = desk.sit(Role.OFFICER);
        assertThat(status(seat.get("/legal-hold/" + UUID.randomUUID() + "/lift")))
                .isEqualTo(404);
        assertThat(status(seat.get("/legal-hold/nonsense/lift"))).isEqualTo(404);
    }

    /** A medical record says to the officer how long it is kept, and to nobody without the right that it is there. */
    @Test
    void theRecordAndThePersonsFileSayHowLong() {
        Desk.Seat seat = desk.sit(Role.OFFICER, Role.TRAINER);
        var told = seat.records(
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
                "Tr. Invented");
        assertThat(text(seat.get("/records/" + told.told().id())))
                .contains("Kept: no end yet. With all its corrections.", "until employment ends");
        assertThat(text(seat.get("/workers/W-1"))).contains("no end yet");
        assertThat(text(desk.sit(seat.laid, Role.SUPERVISOR).get("/workers/W-1")))
                .doesNotContain("no end yet");
        seat.records("/legal-hold", "about", "WORKER", "name", "W-1", "reason", "claim");
        assertThat(text(seat.get("/workers/W-1"))).contains("no end yet; under a legal hold");
    }
}
