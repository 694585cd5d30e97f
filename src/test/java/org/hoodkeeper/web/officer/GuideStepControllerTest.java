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
                        GuideStepWords.Use.WITH_WORDS, "Pull the straps one by one.", "instructions, page 12", null));
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

    /** Between the usual steps and beside them: it hides none, and what the law asks for stays. */
    @Test
    void aModelHasAStepOfItsOwnBetweenTheOthers() {
        Desk.Seat seat = desk.sit(Role.OFFICER);
        assertThat(Desk.text(seat.get(STEPS))).contains("Add a step of its own");
        String add = "/models/MASK-B/new-guide-step";
        assertThat(Desk.text(seat.get(add))).contains("looking over: after “");
        assertThat(seat.refuses(add, "place", "INSPECTION.NO_SUCH", "words", "Press the button.", "reason", "maker"))
                .contains("Say where the step comes.", "Press the button.");
        assertThat(seat.refuses(add, "place", "INSPECTION.HARNESS", "words", "", "reason", "maker"))
                .contains("href=\"#words\"");
        var told = seat.records(
                add,
                "place",
                "INSPECTION.HARNESS",
                "words",
                "Press the red button: it springs back.",
                "reason",
                "instructions, page 14");
        assertThat(told.told().scope()).isEqualTo("INSPECTION.OWN.1");
        assertThat(told.told().fact())
                .isEqualTo(new GuideStepWords(
                        GuideStepWords.Use.ADDED,
                        "Press the red button: it springs back.",
                        "instructions, page 14",
                        "INSPECTION.HARNESS"));
        seat.records(add, "place", "INSPECTION", "words", "Wear gloves.", "reason", "instructions, page 1");
        assertThat(Desk.text(seat.get(STEPS)))
                .contains("Press the red button: it springs back.", "A step of this model’s own", "Wear gloves.");
        assertThat(seat.refuses(
                        STEPS + "/INSPECTION.OWN.1", "use", "AS_USUAL", "words", "", "reason", "not needed any more"))
                .contains("A step of the model’s own is there or left out");
        assertThat(seat.refuses(STEPS + "/INSPECTION.HARNESS", "use", "ADDED", "words", "Look.", "reason", "maker"))
                .contains("A step of the model’s own is there or left out");
        seat.records(STEPS + "/INSPECTION.OWN.1", "use", "LEFT_OUT", "reason", "not needed any more");
        assertThat(Desk.text(seat.get(STEPS)).replaceAll("\\s+", " "))
                .contains("Wear gloves.")
                .containsPattern("Press the red button: it springs back\\..{0,200}Left out");
    }
}
