package org.hoodkeeper.web.trainer;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import org.hoodkeeper.facts.Booking;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@RecordingPage
class BookingControllerTest {

    @Autowired
    Desk desk;

    @Test
    void aSeatMayLieAhead() {
        var version = desk.sit(Role.TRAINER)
                .records("/workers/W-1/booking", "what", "FIT_TEST", "model", "MASK-B", "at", "2099-03-02T07:00");
        assertThat(version.told().fact()).isEqualTo(new Booking(Kind.FIT_TEST, null));
        assertThat(version.told().from()).isEqualTo(Instant.parse("2099-03-02T07:00:00Z"));
    }

    @Test
    void aSeatNeedsItsTime() {
        assertThat(desk.sit(Role.OFFICER).refuses("/workers/W-1/booking", "what", "FIT_TEST"))
                .contains("href=\"#at\"");
    }
}
