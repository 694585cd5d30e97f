package org.hoodkeeper.web.supervisor;

import static org.assertj.core.api.Assertions.assertThat;

import org.hoodkeeper.facts.Observation;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@RecordingPage
class ObservationControllerTest {

    @Autowired
    Desk desk;

    @Test
    void hairAtTheSealIsRecorded() {
        var seen = desk.sit(Role.SUPERVISOR).records("/workers/W-1/observation", "seen", "HAIR_AT_SEAL");
        assertThat(seen.told().fact()).isEqualTo(new Observation(Observation.Seen.HAIR_AT_SEAL, null));
    }

    @Test
    void somethingMustHaveBeenSeen() {
        assertThat(desk.sit(Role.TRAINER).refuses("/workers/W-1/observation", "note", "round at nine"))
                .contains("round at nine", "href=\"#seen\"");
    }
}
