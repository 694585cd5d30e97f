package org.hoodkeeper.web.supervisor;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import org.hoodkeeper.facts.Posting;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@RecordingPage
class PostingControllerTest {

    @Autowired
    Desk desk;

    @Test
    void aPostingLastsThroughItsLastDay() {
        Desk.Seat seat = desk.sit(Role.SUPERVISOR);
        var posted = seat.records(
                "/workers/W-1/posting", "task", "BLAST", "at", "2026-07-01T06:00", "lastDay", "2026-07-31");
        assertThat(posted.told().until()).isEqualTo(Instant.parse("2026-07-31T23:00:00Z"));
        assertThat(posted.told().item()).isEqualTo(seat.laid.task().value());
        var ended = desk.sit(seat.laid, Role.OFFICER)
                .records("/workers/W-1/posting/end", "task", "BLAST", "at", "2026-07-15T06:00");
        assertThat(ended.told().fact()).isEqualTo(new Posting(Posting.Change.ENDED));
    }

    @Test
    void aPostingThatEndsBeforeItStartsIsRefused() {
        assertThat(desk.sit(Role.SUPERVISOR)
                        .refuses(
                                "/workers/W-1/posting",
                                "task",
                                "BLAST",
                                "at",
                                "2026-07-01T06:00",
                                "lastDay",
                                "2026-06-30"))
                .contains("href=\"#lastDay\"");
    }
}
