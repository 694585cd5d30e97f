package org.hoodkeeper.web.trainer;

import static org.assertj.core.api.Assertions.assertThat;

import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@RecordingPage
class TrainingControllerTest {

    @Autowired
    Desk desk;

    @Test
    void aTrainingIsRecordedForOneModel() {
        Desk.Seat seat = desk.sit(Role.TRAINER);
        var version = seat.records(
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
                "Cy Invented");
        assertThat(version.told().scope()).isEqualTo("HOOD-A");
        assertThat(version.told().fact()).isEqualTo(new Training(Outcome.PASS, true, null, false, "Cy Invented"));
    }

    @Test
    void whatWasTypedStaysWhenAnAnswerIsMissing() {
        String page = desk.sit(Role.TRAINER)
                .refuses("/workers/W-1/training", "model", "HOOD-A", "trainer", "Cy Invented", "outcome", "PASS");
        assertThat(page)
                .contains("Cy Invented", "href=\"#demonstrated\"", "href=\"#external\"")
                .doesNotContain("href=\"#outcome\"");
    }
}
