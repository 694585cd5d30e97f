package org.hoodkeeper.web.supervisor;

import static org.assertj.core.api.Assertions.assertThat;

import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@RecordingPage
class SuspensionControllerTest {

    @Autowired
    Desk desk;

    @Test
    void aPersonIsStoppedAndLetBack() {
        Desk.Seat seat = desk.sit(Role.SUPERVISOR);
        assertThat(Desk.text(seat.get("/workers/W-1/suspension/end"))).contains("Nothing stops this person");
        var stop = seat.records("/workers/W-1/suspension", "reason", "lifted the hood in the area");
        assertThat(((Hold) stop.told().fact()).why()).isEqualTo(Hold.Why.SUSPENDED);
        assertThat(Desk.text(seat.get("/workers/W-1/suspension/end"))).contains("lifted the hood in the area");
        var lifted = seat.records(
                "/workers/W-1/suspension/end", "placed", stop.told().id().toString(), "reason", "talked it through");
        assertThat(lifted.told().item()).isEqualTo(stop.told().id().value());
        assertThat(seat.refuses(
                        "/workers/W-1/suspension/end",
                        "placed",
                        stop.told().id().toString(),
                        "reason",
                        "again"))
                .contains("already been released");
        assertThat(seat.refuses("/workers/W-1/suspension/end", "placed", "x", "reason", "again"))
                .contains("No such record");
    }
}
