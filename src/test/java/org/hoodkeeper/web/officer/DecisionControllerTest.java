package org.hoodkeeper.web.officer;

import static org.assertj.core.api.Assertions.assertThat;

import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@RecordingPage
class DecisionControllerTest {

    @Autowired
    Desk desk;

    @Test
    void theListShowsMeaningDefaultAndMark() {
        Desk.Seat seat = desk.sit(Role.OFFICER);
        assertThat(Desk.text(seat.get("/decisions")))
                .contains(
                        "uk 2026-5", "fit-test.interval", "P12M", "How long a passed fit test is good", "not decided");
    }

    @Test
    void aDecisionNeedsOwnerAndReasonAndAValueOfItsForm() {
        Desk.Seat seat = desk.sit(Role.OFFICER);
        assertThat(seat.refuses("/decisions/fit-test.interval", "value", "P24M"))
                .contains("href=\"#owner\"", "href=\"#reason\"", "P24M");
        assertThat(seat.refuses(
                        "/decisions/fit-test.interval",
                        "value",
                        "two years",
                        "owner",
                        "Dee Invented",
                        "reason",
                        "board"))
                .contains("href=\"#value\"");
        var decided = seat.records(
                "/decisions/fit-test.interval", "value", "P24M", "owner", "Dee Invented", "reason", "board of 3 March");
        assertThat(decided.told().scope()).isEqualTo("fit-test.interval");
        assertThat(decided.told().fact()).isEqualTo(new SiteDecision("P24M", "Dee Invented", "board of 3 March"));
        assertThat(Desk.text(seat.get("/decisions"))).contains("P24M");
    }

    @Test
    void whatIsTakenForEachThingNamesIt() {
        Desk.Seat seat = desk.sit(Role.OFFICER);
        var decided = seat.records(
                "/decisions/wear.longest",
                "thing",
                "HALF_MASK",
                "value",
                "PT7H",
                "owner",
                "Dee Invented",
                "reason",
                "practice");
        assertThat(decided.told().scope()).isEqualTo("wear.longest/HALF_MASK");
        seat.refuses(
                "/decisions/wear.longest", "thing", "", "value", "PT7H", "owner", "Dee Invented", "reason", "practice");
    }

    @Test
    void anotherRuleSetIsAdopted() {
        Desk.Seat seat = desk.sit(Role.OFFICER);
        var adopted =
                seat.records("/decisions/rule-set", "value", "us-federal", "owner", "Dee Invented", "reason", "moved");
        assertThat(adopted.told().scope()).isEqualTo("rule-set");
        assertThat(Desk.text(seat.get("/decisions"))).contains("us-federal 2026-5");
        assertThat(Desk.status(seat.get("/decisions/no.such.key"))).isEqualTo(404);
    }
}
