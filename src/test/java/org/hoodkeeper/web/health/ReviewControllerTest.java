package org.hoodkeeper.web.health;

import static org.assertj.core.api.Assertions.assertThat;

import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@RecordingPage
class ReviewControllerTest {

    @Autowired
    Desk desk;

    private static final String SECRET = "tight chest after lunch";

    @Test
    void theHealthRoleReadsAndClosesWhatNobodyElseReads() {
        Desk.Seat worker = desk.sit(Role.WORKER);
        var report = worker.records("/workers/W-1/symptoms", "note", SECRET);
        Desk.Seat health = desk.sit(worker.laid, Role.HEALTH);
        assertThat(Desk.text(health.get("/outcomes")))
                .contains("Ada Invented", report.told().id().toString())
                .doesNotContain(SECRET);
        String review = "/symptoms/" + report.told().id() + "/review";
        assertThat(Desk.text(health.get(review))).contains(SECRET);
        assertThat(Desk.status(desk.sit(worker.laid, Role.OFFICER).get(review))).isEqualTo(403);
        assertThat(Desk.text(worker.get("/told/" + report.told().id()))).doesNotContain(SECRET);
        var closed = health.records(review, "note", "sent to the lung clinic");
        assertThat(closed.told().item()).isEqualTo(report.told().id().value());
        assertThat(Desk.text(health.get("/outcomes"))).contains("No report waits");
        assertThat(health.refuses(review)).contains("already been reviewed");
    }
}
