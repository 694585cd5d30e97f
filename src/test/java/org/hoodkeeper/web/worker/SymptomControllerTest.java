package org.hoodkeeper.web.worker;

import static org.assertj.core.api.Assertions.assertThat;

import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@RecordingPage
class SymptomControllerTest {

    @Autowired
    Desk desk;

    @Test
    void aWorkerReportsForThemselfAndASupervisorForOthers() {
        Desk.Seat worker = desk.sit(Role.WORKER);
        worker.records("/workers/W-1/symptoms", "note", "short of breath");
        assertThat(Desk.status(worker.get("/workers/W-2/symptoms"))).isEqualTo(404);
        desk.sit(worker.laid, Role.SUPERVISOR).records("/workers/W-2/symptoms", "note", "coughs");
        assertThat(Desk.status(desk.sit(worker.laid, Role.STOREKEEPER).get("/workers/W-1/symptoms")))
                .isEqualTo(404);
    }

    /** Whoever told it may read that it was told; nobody else may. */
    @Test
    void whatWasToldIsShownToWhoToldItAlone() {
        Desk.Seat worker = desk.sit(Role.WORKER);
        var report = worker.records("/workers/W-1/symptoms", "note", "short of breath");
        assertThat(Desk.status(desk.sit(worker.laid, Role.HEALTH)
                        .get("/told/" + report.told().id())))
                .isEqualTo(404);
        assertThat(Desk.status(worker.get("/told/no-record"))).isEqualTo(404);
    }
}
