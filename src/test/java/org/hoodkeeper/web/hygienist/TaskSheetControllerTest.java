package org.hoodkeeper.web.hygienist;

import static org.assertj.core.api.Assertions.assertThat;

import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** The sheet, its pictures, whom a move turned and the round, over HTTP. The task stands at 0.5 of a limit of 0.1 mg/m³. */
@RecordingPage
class TaskSheetControllerTest {

    @Autowired
    Desk desk;

    private Desk.Seat seat() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST, Role.OFFICER, Role.SUPERVISOR);
        Air.limit(seat);
        return seat;
    }

    private static void sample(Desk.Seat seat, String value, String below, String at) {
        seat.records(Air.RESULT, Air.sample("value", value, "belowDetection", below, "minutes", "400", "at", at));
    }

    @Test
    void aTaskWithoutResultsSaysWhatTheAssessmentSays() {
        String page = Desk.text(seat().get("/tasks/BLAST/sheet"));
        assertThat(page).contains("At BLAST the air is 5 times its limit", "EH40/2005");
    }

    /** GM 0.615, GSD 1.466 (rounded up 1.47), P95 1.16, UTL 1.42 and 2.54 (SciPy 1.17.1), so 14.2 times the limit. */
    @Test
    void sixResultsMoveTheSheetAndAreDrawn() {
        Desk.Seat seat = seat();
        String[] values = Air.SIX;
        for (int i = 0; i < values.length; i++) {
            sample(seat, values[i], "NO", "2026-02-0" + (i + 1) + "T14:00");
        }
        String page = Desk.text(seat.get("/tasks/BLAST/sheet"));
        assertThat(page)
                .contains(
                        "At BLAST the air is 14.2 times its limit",
                        "which alone says 5 times the limit",
                        "0.616\u202fmg/m³",
                        "1.47",
                        "1.16\u202fmg/m³",
                        "1.42\u202fmg/m³",
                        "2.54\u202fmg/m³",
                        "W 0.981, p 0.959",
                        "the air itself does not keep its limit");
        assertThat(page.split("<circle", -1))
                .as("six marks in each of two pictures")
                .hasSize(13);
        assertThat(Desk.text(seat.get("/tasks/BLAST/sheet?at=2026-01-20T12:00")))
                .contains("At BLAST the air is 5 times its limit");
        assertThat(Desk.text(seat.get("/tasks/BLAST/sheet?at=2026-02-20T12:00&known=then")))
                .contains("not known times the limit as known then, 14.2 times as known now");
        assertThat(Desk.text(seat.get("/tasks"))).contains("14.2");
        assertThat(Desk.text(seat.get("/tasks/BLAST/moved")))
                .contains("may no longer do BLAST", "14.2 times its limit");
    }

    @Test
    void fewerThanSixGiveNoFigureButTheReason() {
        Desk.Seat seat = seat();
        sample(seat, "0.02", "NO", "2026-02-01T14:00");
        sample(seat, "0.01", "YES", "2026-02-02T14:00");
        sample(seat, "0.04", "NO", "2026-02-03T14:00");
        assertThat(Desk.text(seat.get("/tasks/BLAST/sheet")))
                .contains(
                        "preliminary test of EN 689 cannot tell",
                        "Results: 3. The statistic needs at least 6",
                        "below 0.01\u202fmg/m³",
                        "class=\"below\"");
    }

    private static String classes(String page) {
        return page.substring(page.indexOf("Every class that would do"), page.indexOf("What this rests on"));
    }

    /** What the sheet says of the powered hood, a TH2 with a particle filter: its factor of 20 allows 2 mg/m³. */
    private static String hood(Desk.Seat seat) {
        String page = Desk.text(seat.get("/tasks/BLAST/sheet"));
        return page.substring(page.indexOf(">HOOD-A<"), page.indexOf(">MASK-B<"))
                .replaceAll("\\s+", " ");
    }

    private static String highest(String line) {
        return line.replaceFirst(".*data-head=\"Highest concentration\"><span>(.*?)</span>.*", "$1");
    }

    /** At 0.5 mg/m³ the air is immediately dangerous from 0.4 on: a factor of 20 is no reason to go in with a hood or a filter. */
    @Test
    void onlyClassesThatMayBeWornInTheAirAreNamed() {
        Desk.Seat seat = seat();
        assertThat(classes(Desk.text(seat.get("/tasks/BLAST/sheet"))))
                .contains(">TH2<", ">FFP3<", ">self-contained positive<");
        assertThat(hood(seat)).contains(">75 min<");
        Air.limit(seat, "idlh", "0.4", "at", "2026-01-06T07:00");
        String page = Desk.text(seat.get("/tasks/BLAST/sheet"));
        assertThat(classes(page)).contains(">self-contained positive<").doesNotContain(">TH2<", ">FFP3<", ">LDH3<");
        assertThat(page).contains("no model on the site will do");
        assertThat(hood(seat)).as("not even for a minute").contains(">0 min<");
    }

    /** What no filter stops leaves the classes that bring their own air. */
    @Test
    void whatNoFilterStopsLeavesNoClassOfFilters() {
        Desk.Seat seat = seat();
        Air.limit(seat, "airFedOnly", "YES", "at", "2026-01-06T07:00");
        String page = Desk.text(seat.get("/tasks/BLAST/sheet"));
        assertThat(classes(page)).contains(">14594-2 hood<").doesNotContain(">TH2<", ">FFP3<");
        assertThat(highest(hood(seat))).isEqualTo("none");
    }

    /** The assessment allows masks alone: a hood of the class would do for the air, and not for the task. */
    @Test
    void classesOfADeviceThatTheTaskDoesNotAllowAreNotNamed() {
        Desk.Seat seat = seat();
        seat.records(
                Air.BASIS, Air.assessment("silica; 0.5; mg/m3", "interfaces", "FULL_MASK", "at", "2026-01-06T07:00"));
        assertThat(classes(Desk.text(seat.get("/tasks/BLAST/sheet"))))
                .contains(">full P3<")
                .doesNotContain(">TH2<", ">FFP3<", ">self-contained positive<");
    }

    /** No concentration is low enough for a filter that does not stop it, also where the task does not allow the device. */
    @Test
    void aFilterThatLetsASubstanceThroughHasNoHighestConcentration() {
        Desk.Seat seat = seat();
        assertThat(highest(hood(seat))).isEqualTo("2.0\u202fmg/m³");
        Air.limit(seat, "filters", "A", "at", "2026-01-06T07:00");
        assertThat(hood(seat)).contains("the filter does not stop everything");
        assertThat(highest(hood(seat))).isEqualTo("none");
        seat.records(
                Air.BASIS, Air.assessment("silica; 0.5; mg/m3", "interfaces", "FULL_MASK", "at", "2026-01-07T07:00"));
        assertThat(hood(seat)).contains("not for this task");
        assertThat(highest(hood(seat))).isEqualTo("none");
    }

    @Test
    void withoutALimitTheHighestConcentrationIsNotKnown() {
        assertThat(highest(hood(desk.sit(Role.HYGIENIST)))).isEqualTo("not known");
    }

    @Test
    void aMomentThatCannotBeReadIsSaidOnThePage() {
        assertThat(Desk.text(seat().get("/tasks/BLAST/sheet?at=yesterday"))).contains("yesterday", "at-error");
        assertThat(Desk.text(seat().get("/tasks/BLAST/moved?before=soon"))).contains("soon", "before-error");
        assertThat(Desk.status(seat().get("/tasks/NOSUCH/sheet"))).isEqualTo(404);
    }

    @Test
    void whetherPeopleDifferCannotBeToldOfNobody() {
        Desk.Seat seat = seat();
        sample(seat, "0.02", "NO", "2026-02-01T14:00");
        assertThat(Desk.text(seat.get("/tasks/BLAST/sheet")))
                .contains("People named in the results: 0. It takes at least 2");
    }

    @Test
    void theSiteMayDecideThatTheUpperLimitAt95Decides() {
        Desk.Seat seat = seat();
        Desk.Seat officer = desk.sit(seat.laid, Role.OFFICER);
        officer.records(
                "/decisions/exposure.statistic",
                "value",
                "UTL95_95",
                "owner",
                "Dee Invented",
                "reason",
                "few results",
                "at",
                "2026-01-06T08:00");
        String[] values = Air.SIX;
        for (int i = 0; i < values.length; i++) {
            sample(seat, values[i], "NO", "2026-02-0" + (i + 1) + "T14:00");
        }
        assertThat(Desk.text(seat.get("/tasks/BLAST/sheet")))
                .contains("At BLAST the air is 25.4 times its limit", "95 % sure, as the site decided");
    }

    /** What is looked over is not recorded: the sheet stays at 5 times the limit. */
    @Test
    void whatIsAboutToBeToldSaysFirstWhatItTurns() {
        Desk.Seat seat = seat();
        String[] sample = {
            "substance", "silica", "value", "9", "unit", "mg/m3", "period", "SHIFT", "belowDetection", "NO"
        };
        assertThat(Air.looksOver(seat, Air.RESULT, sample))
                .contains(
                        "At BLAST the air goes from 5 to 90 times its limit",
                        "Nobody is posted to BLAST, so nobody is turned",
                        "NO MODEL on the site will do at BLAST");
        String[] limit = Air.limit("value", "0.05");
        assertThat(Air.looksOver(seat, Air.LIMIT, limit))
                .contains("At BLAST the air goes from 5 to 10 times its limit");
        limit[1] = "argon";
        assertThat(Air.looksOver(seat, Air.LIMIT, limit)).contains("No task has this substance in its air");
        assertThat(Air.looksOver(seat, Air.BASIS, Air.assessment("silica; 0.4; mg/m3", "at", "2098-01-01T06:00")))
                .contains("At BLAST the air goes from 5 to 4 times its limit", "Judged for 1 Jan 2098");
        assertThat(Desk.text(seat.get("/tasks/BLAST/sheet"))).contains("At BLAST the air is 5 times its limit");
    }

    @Test
    void anAssessmentBeginsFromTheOneThatStands() {
        assertThat(Desk.text(seat().get("/tasks/BLAST/basis")))
                .contains("silica; 0.5; mg/m3", "So far: Ordinary.", "So far: Yes, or not known.")
                .doesNotContain("checked=\"checked\"");
    }
}
