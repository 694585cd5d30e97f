package org.hoodkeeper.web.hygienist;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.List;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@RecordingPage
class TaskPagesTest {

    @Autowired
    Desk desk;

    @Test
    void anAssessmentNamesEachSubstanceOnItsLine() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        limit(seat, "silica");
        limit(seat, "cobalt");
        var version = seat.records(
                Air.BASIS,
                Air.assessment(
                        "Silica; 0.42; mg/m3\ncobalt; 0.01; mg/m3",
                        "interfaces",
                        "POWERED_HOOD",
                        "lastDay",
                        "2099-12-31",
                        "at",
                        "2098-01-01T06:00"));
        TaskBasis basis = (TaskBasis) version.told().fact();
        assertThat(basis.exposures())
                .containsExactly(
                        new TaskBasis.Exposure("silica", new BigDecimal("0.42"), "mg/m3"),
                        new TaskBasis.Exposure("cobalt", new BigDecimal("0.01"), "mg/m3"));
        assertThat(basis.interfaces()).containsExactly(InterfaceType.POWERED_HOOD);
    }

    @Test
    void aLineThatCannotBeReadIsNamed() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        limit(seat, "silica");
        assertThat(seat.refuses(Air.BASIS, Air.assessment("silica; much; mg/m3")))
                .contains("silica; much; mg/m3", "href=\"#exposures\"");
        assertThat(seat.refuses(Air.BASIS, Air.assessment("silica"))).contains("needs its value");
    }

    @Test
    void aQuestionIsOpenedAndSettled() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        var opened = seat.records("/tasks/BLAST/trigger", "what", "other grit");
        assertThat(Desk.text(seat.get("/tasks/BLAST/trigger/end"))).contains("other grit");
        var closed = seat.records(
                "/tasks/BLAST/trigger/end", "opened", opened.told().id().toString(), "note", "sampled again");
        assertThat(closed.told().item()).isEqualTo(opened.told().id().value());
    }

    /** A name that no limit has, and a statistic that nobody works out, are refused with what is known. */
    @Test
    void whatIsNotKnownHereIsRefusedAtItsFieldWithWhatIs() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        limit(seat, "silica");
        assertThat(Desk.text(seat.get(Air.BASIS))).contains("Limits are on record for: silica.");
        String[] basis = Air.assessment("unobtainium; 0.4; mg/m3", "statistic", "UTL95_70");
        assertThat(seat.refuses(Air.BASIS, basis))
                .contains("No limit is on record for “unobtainium”; limits are on record for: silica.")
                .contains("href=\"#exposures\"");
        basis[1] = "SILICA; 0.4; mg/m3";
        basis[11] = "average";
        assertThat(seat.refuses(Air.BASIS, basis))
                .contains("“average” is no statistic known here: UTL95_70, UTL95_95, P95, MEAN.")
                .contains("href=\"#statistic\"");
    }

    @Test
    void theSubstanceOfAResultIsKnownWhateverItsCapitals() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        limit(seat, "silica");
        assertThat(Desk.text(seat.get(Air.RESULT))).contains("list=\"substance-offered\"", "<option value=\"silica\">");
        var result = seat.records(Air.RESULT, Air.sample("substance", "SiLica"));
        assertThat(result.told().scope()).isEqualTo("silica");
    }

    /** Whoever told a result or a limit is led to what it did. */
    @Test
    void aReceiptLeadsToTheSheetAndToWhomItTurned() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        limit(seat);
        var limit = seat.records(Air.RESULT, SAMPLED);
        assertThat(Desk.text(seat.get("/told/" + limit.told().id())))
                .contains("/tasks/BLAST/sheet\"", "/tasks/BLAST/moved\"", "Whom this turned at BLAST");
        var lower = seat.records(Air.LIMIT, Air.limit("value", "0.05", "source", "EH40", "at", "2026-03-05T07:00"));
        assertThat(Desk.text(seat.get("/told/" + lower.told().id())))
                .contains("/tasks/BLAST/sheet\"", "/tasks/BLAST/moved\"");
    }

    private static final String[] SAMPLED = Air.sample("value", "0.4", "at", "2026-02-05T08:00");

    /** A correction asks in the words of the form that recorded it, and says what the door refuses beside its field. */
    @Test
    void aCorrectionSpeaksAsTheFormDid() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        limit(seat);
        String path = "/records/" + seat.records(Air.RESULT, SAMPLED).told().id();
        String form = Desk.text(seat.get(path + "/correction"));
        assertThat(form)
                .contains("<span>Substance</span>", "<span>Result</span>", "<span>Unit</span>")
                .doesNotContain("The concentration in unit", "id=\"cell-substance-hint\"");
        assertThat(Desk.text(seat.get(path))).contains("<dt>Result</dt>");
        String refused = seat.refuses(
                path + "/correction",
                "cell-task",
                "BLAST",
                "cell-substance",
                "silica",
                "cell-at",
                "2026-02-05T08:00:00Z",
                "cell-value",
                "0.4",
                "cell-unit",
                "ppm",
                "cell-below_detection",
                "no",
                "because",
                "typed wrong");
        assertThat(refused).contains("id=\"cell-unit-error\"", "the limit of silica stands in");
    }

    /** The field's name stands once in what is said of it. */
    @Test
    void aMessageThatBeginsWithItsFieldDoesNotNameItTwice() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        limit(seat);
        String[] wrong = SAMPLED.clone();
        wrong[3] = "-1.9";
        assertThat(seat.refuses(Air.RESULT, wrong))
                .contains("Result \u22121.9: it must be above 0")
                .doesNotContain("<b>Result</b>");
        assertThat(Desk.text(desk.sit(seat.laid, Role.OFFICER).get("/trail?sort=REFUSED&about=BLAST")))
                .contains("POST /sites/{site}/tasks/{code}/exposure-result", "BLAST");
    }

    @Test
    void whatWasChosenOfALongShiftCanBeTakenBack() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        assertThat(Desk.text(seat.get(Air.BASIS)))
                .contains("<select", "name=\"longShift\"")
                .doesNotContain("type=\"radio\" name=\"longShift\"");
    }

    private static void limit(Desk.Seat seat) {
        limit(seat, "silica");
    }

    private static void limit(Desk.Seat seat, String substance) {
        Air.limit(seat, "substance", substance, "shortTerm", "0.3");
    }

    @Test
    void aResultThatCannotBeSetAgainstItsLimitIsRefused() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        assertThat(seat.refuses(Air.RESULT, Air.sample()))
                .contains("href=\"#substance\"", "No limit for “silica” was in force");
        limit(seat);
        assertThat(seat.refuses(Air.RESULT, Air.sample("unit", "ppm")))
                .contains("href=\"#unit\"", "The result is in ppm, and the limit of silica stands in mg/m³");
        assertThat(seat.refuses(Air.RESULT, Air.sample("period", "CEILING")))
                .contains("href=\"#period\"", "For silica no limit of that period is on record");
        assertThat(seat.refuses(Air.RESULT, Air.sample("period", "SHORT_TERM", "minutes", "240")))
                .contains("a peak is at most 30");
        for (String value : List.of("0", "-0.3")) {
            assertThat(seat.refuses(Air.RESULT, Air.sample("value", value)))
                    .contains("href=\"#value\"", "must be above 0");
        }
        assertThat(seat.refuses(Air.RESULT, Air.sample("value", ""))).contains("Type the result");
        assertThat(seat.refuses(Air.RESULT, Air.sample("value", "", "parts", "1.4; soon")))
                .contains("1.4; soon");
        assertThat(seat.refuses(Air.RESULT, Air.sample("value", "2", "parts", "1.4; 95")))
                .contains("is not the eight-hour average of its parts");
        assertThat(seat.refuses(Air.RESULT, Air.sample("at", "2025-12-31T07:00")))
                .contains("No limit for “silica” was in force");
    }

    /** 1.4 × 95 + 0.35 × 150 + 0.05 × 235 over 480 min is 0.411 (computed from 29 CFR 1910.1000(d)(1)). */
    @Test
    void partsOfAShiftAreAveragedOverEightHours() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        limit(seat);
        var result = seat.records(Air.RESULT, Air.sample("value", "", "parts", "1.4; 95\n0.35; 150\n0.05; 235"));
        ExposureResult fact = (ExposureResult) result.told().fact();
        assertThat(fact.value()).isEqualByComparingTo("0.4110");
        assertThat(fact.parts()).hasSize(3);
    }

    @Test
    void aResultAndTheHeatAreRecorded() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        limit(seat);
        var result = seat.records(Air.RESULT, Air.sample("person", "W-1", "group", "cutters"));
        assertThat(result.told().scope()).isEqualTo("silica");
        assertThat(((ExposureResult) result.told().fact()).person()).isEqualTo("W-1");
        assertThat(((ExposureResult) result.told().fact()).group()).isEqualTo("cutters");
        assertThat(seat.refuses(Air.RESULT, Air.sample("person", "W-9"))).contains("W-9");
        seat.records("/tasks/BLAST/condition", "value", "28.5");
        assertThat(seat.refuses("/tasks/BLAST/condition", "value", "285"))
                .contains("Heat (WBGT) 285", "href=\"#value\"");
    }

    private static String[] inUnit(String unit) {
        return Air.limit("value", "0.04", "unit", unit);
    }

    /** The task's assessment states silica in mg/m³. */
    @Test
    void aLimitInAnotherUnitThanTheAssessmentIsRefusedWithBothUnits() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        assertThat(seat.refuses(Air.LIMIT, inUnit("ppm")))
                .contains(
                        "href=\"#unit\"",
                        "The limit is in ppm, and the assessment of BLAST states silica in mg/m³. Convert the limit, type it in mg/m³");
        assertThat(seat.records(Air.LIMIT, inUnit("mg/m³")).told().fact())
                .satisfies(fact -> assertThat(((Limit) fact).unit()).isEqualTo("mg/m3"));
    }

    @Test
    void aLimitInAnotherUnitThanTheResultsIsRefusedToo() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        limit(seat);
        limit(seat, "cobalt");
        seat.records(Air.RESULT, Air.sample());
        seat.records(Air.BASIS, Air.assessment("cobalt; 0.01; mg/m3", "whyBelow", "other stone"));
        assertThat(seat.refuses(Air.LIMIT, inUnit("ppm")))
                .contains("The limit is in ppm, and the newest result of silica stands in mg/m³");
    }

    @Test
    void aPeakMayNotBeLimitedBelowTheWholeShift() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        assertThat(seat.refuses(Air.LIMIT, Air.limit("ceiling", "0.05")))
                .contains("href=\"#ceiling\"", "The ceiling 0.05 lies below the long-term limit 0.1");
        assertThat(seat.refuses(Air.LIMIT, Air.limit("shortTerm", "0.05"))).contains("href=\"#shortTerm\"");
    }

    /** Two substances would each have half of the results. */
    @Test
    void aLimitTypedInOtherCapitalsIsOfTheSubstanceOnRecord() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        limit(seat);
        String[] capitals = inUnit("mg/m3");
        capitals[1] = "SILICA";
        assertThat(seat.records(Air.LIMIT, capitals).told().scope()).isEqualTo("silica");
    }

    @Test
    void aChangedLimitKeepsToTheUnitOfTheAssessmentAndACorrectedOneToItsName() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        limit(seat, "cobalt");
        String path =
                "/records/" + seat.records(Air.LIMIT, inUnit("mg/m3")).told().id() + "/correction";
        String[] stated = {
            "aim", "CHANGE", "because", "typed wrong", "cell-substance", "silica", "cell-from", "2099-01-05T07:00:00Z",
            "cell-value", "0.05", "cell-unit", "ppm", "cell-filters", "particle", "cell-air_fed_only", "no",
            "cell-source", "EH40/2005", "cell-mark", "restated"
        };
        assertThat(seat.refuses(path, stated))
                .contains(
                        "id=\"cell-unit-error\"",
                        "The limit is in ppm, and the assessment of BLAST states silica in mg/m³");
        stated[1] = "CORRECTION";
        stated[5] = "Cobalt";
        stated[7] = "2026-01-05T07:00:00Z";
        stated[11] = "mg/m3";
        assertThat(seat.refuses(path, stated))
                .contains("id=\"cell-substance-error\"", "Cobalt stands on record, or in the same file, as cobalt");
    }

    /** 0.3 was set against the short-term limit; the new one has none. */
    @Test
    void aPeakWhoseLimitLosesItsShortTermValueIsSaid() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        limit(seat);
        seat.records(Air.RESULT, Air.sample("period", "SHORT_TERM"));
        assertThat(Desk.text(seat.get("/tasks/BLAST/sheet"))).doesNotContain("Peaks set against nothing");
        seat.records(Air.LIMIT, inUnit("mg/m3"));
        assertThat(Desk.text(seat.get("/tasks/BLAST/sheet")))
                .contains(
                        "Peaks set against nothing",
                        "the highest 0.3\u202fmg/m³ of 2 Mar 2026, 07:00) are set against nothing");
    }

    @Test
    void aLimitNamesWhatStopsTheSubstance() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        var limit = seat.records(Air.LIMIT, Air.limit());
        assertThat(limit.told().scope()).isEqualTo("silica");
        assertThat(seat.refuses(Air.LIMIT, Air.limit("filters", ""))).contains("href=\"#filters\"");
    }
}
