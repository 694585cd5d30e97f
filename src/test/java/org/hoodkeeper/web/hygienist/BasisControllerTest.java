package org.hoodkeeper.web.hygienist;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * What an assessment states beside what was measured. Six results of silica: UTL 1.42 mg/m³ (SciPy 1.17.1); the limit is 0.1,
 * and the standing assessment states 0.5.
 */
@RecordingPage
class BasisControllerTest {

    @Autowired
    Desk desk;

    @Autowired
    Ledger ledger;

    @Autowired
    TransactionTemplate transaction;

    private History.Version first;

    private Desk.Seat measured() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST, Role.OFFICER);
        Air.limit(seat, "unit", "mg/m³");
        for (int i = 0; i < Air.SIX.length; i++) {
            History.Version told = seat.records(Air.RESULT, result(Air.SIX[i], "2026-02-0" + (i + 1)));
            first = i == 0 ? told : first;
        }
        return seat;
    }

    private static String[] result(String value, String day) {
        return Air.sample("value", value, "at", day + "T14:00");
    }

    @Test
    void lessThanWasMeasuredNeedsAReason() {
        Desk.Seat seat = measured();
        assertThat(seat.refuses(Air.BASIS, Air.assessment("silica; 0.2; mg/m3")))
                .contains(
                        "href=\"#whyBelow\"",
                        "For silica the results on record give 1.42 mg/m³ by the statistic that decides here, and the assessment states 0.2");
        assertThat(seat.refuses(Air.BASIS, Air.assessment("silica; 0.2; mg/m³", "whyBelow", "  ")))
                .contains("href=\"#whyBelow\"");
        Air.limit(seat, "substance", "cobalt", "unit", "mg/m³");
        assertThat(seat.refuses(Air.BASIS, Air.assessment("cobalt; 0.2; mg/m3")))
                .contains("the assessment states nothing on record");
        assertThat(Air.looksOver(
                        seat,
                        Air.BASIS,
                        Air.assessment("silica; 0.2; mg/m3", "whyBelow", "New extraction since March")))
                .contains(
                        "silica: 0.2\u202fmg/m³ is stated, and the 6 results on record give 1.42\u202fmg/m³ (Upper limit of the 95th percentile, 70 % sure).",
                        "What is stated is LOWER than what was measured.", "New extraction since March");
    }

    @Test
    void asMuchAsWasMeasuredIsSaidAndAsksForNoReason() {
        Desk.Seat seat = measured();
        assertThat(Air.looksOver(seat, Air.BASIS, Air.assessment("silica; 1.42; mg/m3")))
                .contains("silica: 1.42\u202fmg/m³ is stated, and the 6 results on record give 1.42\u202fmg/m³")
                .doesNotContain("LOWER");
    }

    /** All six lie before 1 March, and are set beside the figure all the same. */
    @Test
    void resultsThatAreLeftOutAreSetBesideItToo() {
        Desk.Seat seat = measured();
        assertThat(seat.refuses(Air.BASIS, Air.assessment("silica; 0.2; mg/m3", "resultsSince", "2026-03-01")))
                .contains("href=\"#whyBelow\"");
        assertThat(Air.looksOver(
                        seat,
                        Air.BASIS,
                        Air.assessment(
                                "silica; 0.2; mg/m3",
                                "resultsSince",
                                "2026-03-01",
                                "whyBelow",
                                "Wet cutting since March")))
                .contains("All of these results are left out, as of another way of working.");
    }

    /** Three are too few for the statistic: the highest of them, 1.10, is what was measured. */
    @Test
    void tooFewResultsAreSetBesideItByTheHighest() {
        Desk.Seat seat = measured();
        assertThat(seat.refuses(
                        Air.BASIS,
                        Air.assessment("silica; 1.0; mg/m3", "resultsSince", "2026-02-03", "at", "2026-02-05T20:00")))
                .contains(
                        "For silica the highest of the results on record is 1.10 mg/m³, and the assessment states 1.0.");
    }

    @Test
    void theSheetSaysThatTheAssessmentDecidesAndWhy() {
        Desk.Seat seat = measured();
        assertThat(Desk.text(seat.get("/tasks/BLAST/sheet")))
                .contains(
                        "silica: the results decide, 1.42\u202fmg/m³",
                        "The assessment states 0.5\u202fmg/m³.",
                        ">decides<");
        TaskBasis told = (TaskBasis)
                seat.records(Air.BASIS, Air.assessment("silica; 0.2; mg/m3", "whyBelow", "New extraction since March"))
                        .told()
                        .fact();
        assertThat(told.whyBelow()).isEqualTo("New extraction since March");
        assertThat(Desk.text(seat.get("/tasks/BLAST/sheet")))
                .contains(
                        "At BLAST the air is 2 times its limit",
                        "The assessment’s figure decides. silica: 0.2\u202fmg/m³ is stated",
                        "silica: the assessment decides, 0.2\u202fmg/m³; the results give 1.42\u202fmg/m³",
                        "assessment: 0.2",
                        "So stated because: New extraction since March",
                        "these results: 1.42",
                        "New extraction since March")
                .doesNotContain(">decides<", "have been corrected or withdrawn since");
        assertThat(Desk.text(seat.get("/tasks"))).contains("What is stated is LOWER than what was measured.");
    }

    /** The figure that it was weighed for may no longer hold. */
    @Test
    void anAssessmentWhoseResultWasWithdrawnSinceIsFlagged() {
        Desk.Seat seat = measured();
        seat.records(Air.BASIS, Air.assessment("silica; 1.42; mg/m3"));
        String record = "/records/" + first.told().id();
        Map<String, String> back = new LinkedHashMap<>(Map.of("because", "The pump had stopped", "step", "record"));
        back.put("formKey", UUID.randomUUID().toString());
        assertThat(Desk.status(seat.post(record + "/withdrawal", back))).isEqualTo(302);
        assertThat(Desk.text(seat.get("/tasks/BLAST/sheet")))
                .contains(
                        "Results that this assessment weighed have been corrected or withdrawn since: 1.",
                        "silica, 0.62\u202fmg/m³ of 1 Feb 2026, 14:00: withdrawn",
                        record);
    }

    /** Five are left, too few for the statistic: the highest of them, 0.81, is 8.1 times the limit, and the hood that was short will do. */
    @Test
    void takingAResultBackSaysFirstWhatItTurnsAndWhatRestedOnIt() {
        Desk.Seat seat = measured();
        History.Version highest = seat.records(Air.RESULT, result("1.2", "2026-02-20"));
        seat.records(Air.BASIS, Air.assessment("silica; 2; mg/m3", "at", "2026-02-21T06:00"));
        String page = Air.looksOver(
                seat, "/records/" + highest.told().id() + "/withdrawal", "because", "The pump had stopped");
        assertThat(page)
                .contains(
                        "What it turns",
                        "At BLAST the air stays at 20 times its limit.",
                        "Assessments that weighed it, to be looked at again: 1.",
                        "BLAST, from 21 Feb 2026, 06:00");
        assertThat(Air.looksOver(
                        seat, "/records/" + first.told().id() + "/withdrawal", "because", "The pump had stopped"))
                .contains("Assessments that weighed it, to be looked at again: 1.");
    }

    /** Two came in before the limit was stated in mg/m³: each unit has a picture and an axis of its own. */
    @Test
    void resultsInTwoUnitsAreNotPutOnOneAxis() {
        Desk.Seat seat = measured();
        for (String value : List.of("0.2", "0.3")) {
            Draft odd = Draft.of(
                            new ExposureResult(new BigDecimal(value), "ppm", false, null, null, null, null),
                            seat.laid.task(),
                            Instant.parse("2026-01-20T14:00:00Z"))
                    .scope("silica");
            seat.laid.in(() -> transaction.execute(status -> ledger.append(seat.laid.author(), odd)));
        }
        String page = Desk.text(seat.get("/tasks/BLAST/sheet"));
        assertThat(page)
                .contains("silica: 2 results, too few", "silica: 6 results, too few")
                .contains("ppm, logarithmic", "mg/m³, logarithmic");
        assertThat(page.split("<circle", -1))
                .as("two marks in one picture, six in the other")
                .hasSize(9);
    }

    /** From before two spellings were refused: each keeps its own, by the limit's form, the result's and the assessment's. */
    @Test
    void ofTwoSpellingsOnRecordTheOneThatWasTypedIsMeant() {
        Desk.Seat seat = desk.sit(Role.HYGIENIST);
        for (String spelling : List.of("Silica", "silica")) {
            Limit old = new Limit(
                    new BigDecimal("0.1"),
                    "mg/m3",
                    null,
                    Set.of(FilterKind.PARTICLE),
                    false,
                    "EH40/2005",
                    Mark.RESTATED);
            Draft told = Draft.of(old, seat.laid.site().id(), Instant.parse("2026-01-05T07:00:00Z"))
                    .scope(spelling);
            seat.laid.in(() -> transaction.execute(status -> ledger.append(seat.laid.author(), told)));
        }
        assertThat(seat.records(Air.LIMIT, Air.limit("value", "0.05")).told().scope())
                .isEqualTo("silica");
        assertThat(seat.records(Air.RESULT, Air.sample()).told().scope()).isEqualTo("silica");
        TaskBasis basis = (TaskBasis) seat.records(Air.BASIS, Air.assessment("silica; 0.4; mg/m3"))
                .told()
                .fact();
        assertThat(basis.exposures()).extracting(TaskBasis.Exposure::substance).containsExactly("silica");
        assertThat(seat.records(Air.RESULT, Air.sample("substance", "Silica"))
                        .told()
                        .scope())
                .isEqualTo("Silica");
    }
}
