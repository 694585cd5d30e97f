package org.hoodkeeper.web.record;

import static org.assertj.core.api.Assertions.assertThat;

import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@RecordingPage
class RecordControllerTest {

    @Autowired
    Desk desk;

    @Test
    void eachRoleFindsItsOwnThings() {
        Desk.Seat trainer = desk.sit(Role.TRAINER);
        assertThat(Desk.text(trainer.get("/record")))
                .contains("/workers/W-1/fit-test")
                .doesNotContain("/tasks/BLAST/basis", "/decisions");
        assertThat(Desk.text(desk.sit(trainer.laid, Role.HYGIENIST).get("/record")))
                .contains("/tasks/BLAST/basis", "/limits/new")
                .doesNotContain("/workers/W-1/fit-test");
        assertThat(Desk.text(desk.sit(trainer.laid, Role.OFFICER).get("/record")))
                .contains("/register", "/decisions", "/workers/W-1/suspension");
    }

    @Test
    void somebodyIsLookedForByNumberOrName() {
        Desk.Seat officer = desk.sit(Role.OFFICER);
        assertThat(Desk.text(officer.get("/record?q=bo")))
                .contains("/workers/W-2/suspension", "Shown: 1 of 1.")
                .doesNotContain("/workers/W-1/suspension");
        assertThat(Desk.text(officer.get("/record?q=Zed"))).contains("Nobody’s number or name holds “Zed”.");
        assertThat(Desk.text(officer.get("/record?page=99"))).contains("/workers/W-1/suspension");
    }

    @Test
    void theSupervisorFindsThePageInTheNavigationAndOnThePersonsPage() {
        Desk.Seat supervisor = desk.sit(Role.SUPERVISOR);
        String person = Desk.text(supervisor.get("/workers/W-1"));
        assertThat(person).contains("/workers/W-1/suspension", ">Record</a>").doesNotContain("/workers/W-1/training");
    }

    /** The same pages in Spanish: no key is left without words. */
    @Test
    void thePagesSpeakSpanish() {
        Desk.Seat trainer = desk.sit(Role.TRAINER);
        assertThat(Desk.text(trainer.get("/workers/W-1/fit-test?lang=es")))
                .contains("Ensayo de ajuste de Ada Invented")
                .doesNotContain("??");
    }
}
