package org.hoodkeeper.web.officer;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import org.hoodkeeper.facts.Employment;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@RecordingPage
class EmploymentControllerTest {

    @Autowired
    Desk desk;

    @Test
    void aPersonLeavesAndComesBack() {
        Desk.Seat seat = desk.sit(Role.OFFICER);
        var left = seat.records("/workers/W-1/employment", "change", "ENDED", "day", "2026-06-30");
        assertThat(left.told().fact())
                .isEqualTo(new Employment(Employment.Change.ENDED, LocalDate.parse("2026-06-30")));
        // midnight after the last day in summer time of the site, Europe/London
        assertThat(left.told().from()).isEqualTo(Instant.parse("2026-06-30T23:00:00Z"));
        var back = seat.records("/workers/W-1/employment", "change", "RESUMED", "day", "2026-10-01");
        assertThat(back.told().fact()).isEqualTo(new Employment(Employment.Change.RESUMED, null));
        assertThat(back.told().from()).isEqualTo(Instant.parse("2026-09-30T23:00:00Z"));
    }

    @Test
    void withoutItsDayItIsNotRecorded() {
        Desk.Seat seat = desk.sit(Role.OFFICER);
        assertThat(seat.refuses("/workers/W-1/employment", "change", "ENDED", "day", ""))
                .contains("Which day?");
        assertThat(seat.refuses("/workers/W-1/employment", "change", "ENDED", "day", "1026-06-30"))
                .contains("Last day", "must lie between");
    }
}
