package org.hoodkeeper.web.officer;

import static org.assertj.core.api.Assertions.assertThat;

import org.hoodkeeper.facts.GuideStepWords;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@RecordingPage
class GuideStepControllerTest {

    private static final String STEPS = "/models/MASK-B/guides";

    @Autowired
    Desk desk;

    @Test
    void theOfficersWordsStandWithTheStep() {
        Desk.Seat seat = desk.sit(Role.OFFICER);
        assertThat(Desk.text(seat.get(STEPS))).contains("Cannot be left out");
        var told = seat.records(
                STEPS + "/INSPECTION.HARNESS",
                "use",
                "WITH_WORDS",
                "words",
                "Pull the straps one by one.",
                "reason",
                "instructions, page 12");
        assertThat(told.told().scope()).isEqualTo("INSPECTION.HARNESS");
        assertThat(told.told().fact())
                .isEqualTo(new GuideStepWords(
                        GuideStepWords.Use.WITH_WORDS, "Pull the straps one by one.", "instructions, page 12"));
        assertThat(Desk.text(seat.get(STEPS))).contains("Pull the straps one by one.", "instructions, page 12");
    }

    @Test
    void whatTheLawAsksForIsNotLeftOutAndWhatItDoesNotMayBe() {
        Desk.Seat seat = desk.sit(Role.OFFICER);
        assertThat(seat.refuses(STEPS + "/INSPECTION.HARNESS", "use", "LEFT_OUT", "reason", "no time"))
                .contains("This step cannot be left out", "no time");
        assertThat(seat.refuses(STEPS + "/DONNING.SEAL", "use", "LEFT_OUT", "reason", "no time"))
                .contains("This step cannot be left out");
        assertThat(seat.refuses(STEPS + "/ASSEMBLY.LABELS", "use", "LEFT_OUT", "reason", ""))
                .contains("href=\"#reason\"");
        assertThat(seat.refuses(STEPS + "/ASSEMBLY.LABELS", "use", "WITH_WORDS", "words", "", "reason", "maker"))
                .contains("href=\"#words\"");
        seat.records(STEPS + "/ASSEMBLY.LABELS", "use", "LEFT_OUT", "reason", "comes without labels");
        assertThat(Desk.text(seat.get(STEPS))).contains("Left out");
        assertThat(Desk.status(seat.get(STEPS + "/NO.SUCH"))).isEqualTo(404);
    }
}
