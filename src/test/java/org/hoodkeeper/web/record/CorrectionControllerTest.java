package org.hoodkeeper.web.record;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hoodkeeper.web.sheet.Desk.status;
import static org.hoodkeeper.web.sheet.Desk.text;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.evidence.TestSite;
import org.hoodkeeper.facts.Custody;
import org.hoodkeeper.facts.Defect;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.Posting;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.facts.Training;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kit.Custodies;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.ledger.Ledger;
import org.hoodkeeper.web.sheet.Desk;
import org.hoodkeeper.web.sheet.RecordingPage;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.test.web.servlet.MvcResult;
import org.springframework.transaction.support.TransactionTemplate;

/** Any record is put right by whoever may: the first version stays and everybody sees both. */
@RecordingPage
class CorrectionControllerTest {

    private static final Instant DAY = Instant.parse("2026-02-03T09:00:00Z");

    @Autowired
    Desk desk;

    @Autowired
    Ledger ledger;

    @Autowired
    History history;

    @Autowired
    Custodies custodies;

    @Autowired
    TransactionTemplate transaction;

    private RecordId told(TestSite.Laid laid, Draft draft) {
        return laid.in(() -> transaction.execute(status -> ledger.append(laid.author(), draft)));
    }

    private RecordId training(TestSite.Laid laid) {
        return told(
                laid,
                Draft.of(new Training(Outcome.PASS, true, "2", false, "Cy Invented"), laid.worker(), DAY)
                        .scope("HOOD-A"));
    }

    private History.Version find(TestSite.Laid laid, RecordId id) {
        return laid.in(() -> history.find(laid.site().id(), id, Instant.now().plusSeconds(60)));
    }

    private static Map<String, String> typed(String... namesAndValues) {
        Map<String, String> typed = new LinkedHashMap<>();
        for (int i = 0; i < namesAndValues.length; i += 2) {
            typed.put(namesAndValues[i], namesAndValues[i + 1]);
        }
        return typed;
    }

    private static Map<String, String> trainingCells(String worker, String at, String outcome) {
        return typed(
                "cell-worker", worker,
                "cell-model", "HOOD-A",
                "cell-at", at,
                "cell-outcome", outcome,
                "cell-demonstrated", "yes",
                "cell-content_version", "2",
                "cell-external", "no",
                "cell-trainer", "Cy Invented");
    }

    private static MvcResult send(Desk.Seat seat, RecordId id, String step, Map<String, String> cells, String because) {
        Map<String, String> fields = new LinkedHashMap<>(cells);
        fields.put("formKey", UUID.randomUUID().toString());
        fields.put("because", because);
        fields.put("step", step);
        return seat.post("/records/" + id + "/correction", fields);
    }

    private static RecordId recorded(MvcResult result) {
        assertThat(status(result)).as(text(result)).isEqualTo(302);
        String target = String.valueOf(result.getResponse().getRedirectedUrl());
        return RecordId.of(target.substring(target.lastIndexOf('/') + 1));
    }

    @Test
    void theFormBeginsWithWhatTheRecordSays() {
        Desk.Seat seat = desk.sit(Role.TRAINER);
        RecordId id = training(seat.laid);
        String page = text(seat.get("/records/" + id + "/correction"));
        assertThat(page)
                .contains(
                        "value=\"W-1\"",
                        "value=\"2026-02-03 09:00\"",
                        "2026-11-25 09:30 on the site’s clock",
                        "value=\"Cy Invented\"");
        assertThat(page).containsPattern("value=\"pass\" selected");
        assertThat(page).contains("The model’s code.", "Who gave it.");
    }

    @Test
    void theFirstVersionStaysStruckThroughWithWhoWhenAndWhy() {
        Desk.Seat seat = desk.sit(Role.TRAINER);
        RecordId first = training(seat.laid);
        Map<String, String> cells = trainingCells("W-1", "2026-02-04 09:00", "pass");
        MvcResult check = send(seat, first, "check", cells, "it was the next day");
        assertThat(status(check)).as(text(check)).isEqualTo(200);
        assertThat(text(check)).contains("2026-02-03 09:00, becomes 2026-02-04 09:00");
        assertThat(find(seat.laid, first).replacedBy())
                .as("looking over records nothing")
                .isNull();
        RecordId second = recorded(send(seat, first, "record", cells, "it was the next day"));
        History.Version corrected = find(seat.laid, second);
        assertThat(corrected.told().from()).isEqualTo("2026-02-04T09:00:00Z");
        assertThat(corrected.told().fact())
                .isEqualTo(find(seat.laid, first).told().fact());
        assertThat(corrected.because()).isEqualTo("it was the next day");
        assertThat(find(seat.laid, first).replacedBy()).isEqualTo(second);
        String page = text(seat.get("/records/" + first));
        assertThat(page)
                .contains("It does not count any more", "<s>First told</s>", "it was the next day", first.toString());
        assertThat(text(seat.get("/records/" + second))).contains("It corrects an earlier one.");
    }

    /** London: an hour ahead of UTC in June; on 25 October 2026 01:30 comes twice, and on 29 March it does not come. */
    @Test
    void aTimeIsTypedOnTheSitesClockAndStaysToTheSecondWhereNobodyTouchesIt() {
        Desk.Seat seat = desk.sit(Role.TRAINER);
        Training training = new Training(Outcome.PASS, true, "2", false, "Cy Invented");
        RecordId id = told(
                seat.laid,
                Draft.of(training, seat.laid.worker(), Instant.parse("2026-06-03T09:00:17.5Z"))
                        .scope("HOOD-A"));
        assertThat(text(seat.get("/records/" + id + "/correction"))).contains("value=\"2026-06-03 10:00\"");
        assertThat(text(seat.get("/records/" + id))).contains("3 Jun 2026, 10:00");
        id = recorded(send(seat, id, "record", trainingCells("W-1", "2026-06-03 10:00", "fail"), "a slip"));
        assertThat(find(seat.laid, id).told().from()).isEqualTo("2026-06-03T09:00:17.5Z");
        id = recorded(send(seat, id, "record", trainingCells("W-1", "2026-06-04 10:00", "fail"), "a day later"));
        assertThat(find(seat.laid, id).told().from()).isEqualTo("2026-06-04T09:00:00Z");
        assertThat(text(send(seat, id, "check", trainingCells("W-1", "2026-03-29 01:30", "fail"), "earlier")))
                .contains("href=\"#cell-at\"", "does not occur");
        assertThat(text(send(seat, id, "check", trainingCells("W-1", "2026-10-25 01:30", "fail"), "at night")))
                .contains("href=\"#cell-at\"", "occurs twice on that night", "+01:00 for the earlier one");
        id = recorded(send(seat, id, "record", trainingCells("W-1", "2026-10-25 01:30+01:00", "fail"), "at night"));
        assertThat(find(seat.laid, id).told().from()).isEqualTo("2026-10-25T00:30:00Z");
        assertThat(text(seat.get("/records/" + id + "/correction"))).contains("value=\"2026-10-25 01:30+01:00\"");
    }

    @Test
    void aCorrectionMayTurnToAnotherPerson() {
        Desk.Seat seat = desk.sit(Role.OFFICER);
        RecordId first = training(seat.laid);
        RecordId second = recorded(
                send(seat, first, "record", trainingCells("W-2", "2026-02-03T09:00:00Z", "pass"), "it was Bo"));
        assertThat(find(seat.laid, second).told().subject())
                .isEqualTo(seat.laid.other().value());
    }

    @Test
    void withoutReasonOrIntoTheFutureItIsRefusedAndWhatWasTypedStays() {
        Desk.Seat seat = desk.sit(Role.TRAINER);
        RecordId first = training(seat.laid);
        MvcResult noReason = send(seat, first, "check", trainingCells("W-2", "2026-02-03T09:00:00Z", "pass"), "  ");
        assertThat(status(noReason)).isEqualTo(422);
        assertThat(text(noReason)).contains("A correction needs its reason", "value=\"W-2\"", "role=\"alert\"");
        String ahead = Instant.now().plus(Duration.ofDays(2)).toString().substring(0, 19) + "Z";
        MvcResult future = send(seat, first, "check", trainingCells("W-1", ahead, "pass"), "because");
        assertThat(status(future)).isEqualTo(422);
        assertThat(text(future)).contains("href=\"#cell-at\"", "value=\"" + ahead + "\"");
        MvcResult nobody = send(seat, first, "check", trainingCells("W-77", "2026-02-03T09:00:00Z", "pass"), "because");
        assertThat(text(nobody)).contains("href=\"#cell-worker\"", "W-77");
        MvcResult same = send(seat, first, "check", trainingCells("W-1", "2026-02-03T09:00:00Z", "pass"), "because");
        assertThat(status(same)).isEqualTo(422);
        assertThat(text(same)).contains("Nothing differs");
        assertThat(find(seat.laid, first).isCurrent()).isTrue();
    }

    @Test
    void whoDoesNotRecordThatKindMayNotCorrectIt() {
        Desk.Seat officer = desk.sit(Role.OFFICER);
        RecordId training = training(officer.laid);
        Desk.Seat storekeeper = desk.sit(officer.laid, Role.STOREKEEPER);
        assertThat(status(storekeeper.get("/records/" + training))).isEqualTo(404);
        assertThat(status(send(
                        storekeeper, training, "record", trainingCells("W-2", "2026-02-03T09:00:00Z", "pass"), "x")))
                .isEqualTo(404);
        RecordId outcome = told(
                officer.laid,
                Draft.of(
                        new MedicalOutcome(MedicalOutcome.Result.FIT, Set.of(), null, null, null, false, null, null),
                        officer.laid.worker(),
                        DAY));
        assertThat(text(officer.get("/records/" + outcome))).doesNotContain("/correction\"");
        MvcResult refused = officer.get("/records/" + outcome + "/correction");
        assertThat(status(refused)).isGreaterThanOrEqualTo(400).isLessThan(500);
        assertThat(text(refused)).contains("health professional alone");
        assertThat(find(officer.laid, outcome).isCurrent()).isTrue();
        Desk.Seat supervisor = desk.sit(officer.laid, Role.SUPERVISOR);
        assertThat(status(supervisor.get("/records/" + outcome))).isEqualTo(404);
    }

    @Test
    void theOfficerSeesThatAMedicalRecordWasCorrectedAndNotWhy() {
        Desk.Seat health = desk.sit(Role.HEALTH);
        RecordId outcome = told(
                health.laid,
                Draft.of(
                        new MedicalOutcome(MedicalOutcome.Result.FIT, Set.of(), null, null, null, false, null, null),
                        health.laid.worker(),
                        DAY));
        RecordId second = recorded(send(
                health,
                outcome,
                "record",
                typed(
                        "cell-worker", "W-1",
                        "cell-at", "2026-02-03T09:00:00Z",
                        "cell-result", "fit-with-limits",
                        "cell-interfaces", "powered-hood",
                        "cell-never_alone", "no"),
                "planted-secret-why"));
        assertThat(text(health.get("/records/" + outcome))).contains("planted-secret-why");
        Desk.Seat officer = desk.sit(health.laid, Role.OFFICER);
        assertThat(text(officer.get("/records/" + outcome)))
                .contains("It does not count any more", "<s>First told</s>", second.toString())
                .doesNotContain("planted-secret-why");
        assertThat(text(officer.get("/records/" + second))).doesNotContain("planted-secret-why");
    }

    @Test
    void theSecondOfTwoSeesWhatTheFirstStatedAndDecidesAgain() {
        Desk.Seat one = desk.sit(Role.TRAINER);
        RecordId first = training(one.laid);
        Desk.Seat other = desk.sit(one.laid, Role.OFFICER);
        RecordId second = recorded(send(
                one, first, "record", trainingCells("W-1", "2026-02-04T09:00:00Z", "pass"), "it was the next day"));
        MvcResult late =
                send(other, first, "record", trainingCells("W-1", "2026-02-05T09:00:00Z", "pass"), "two days on");
        assertThat(status(late)).isEqualTo(409);
        assertThat(text(late))
                .contains("it was the next day", "value=\"2026-02-04 09:00\"", "You had typed: 2026-02-05T09:00:00Z")
                .contains("/records/" + second + "/correction", "two days on");
        assertThat(find(one.laid, second).isCurrent()).isTrue();
        RecordId third = recorded(
                send(other, second, "record", trainingCells("W-1", "2026-02-05T09:00:00Z", "pass"), "two days on"));
        assertThat(find(one.laid, third).told().corrects()).isEqualTo(second);
        assertThat(text(one.get("/records/" + first + "/correction")))
                .contains("value=\"2026-02-05 09:00\"", "/records/" + third + "/correction");
    }

    @Test
    void aRecordIsTakenBackAndNothingComesBackInItsPlace() {
        Desk.Seat seat = desk.sit(Role.TRAINER);
        RecordId first = training(seat.laid);
        Map<String, String> fields = typed("formKey", UUID.randomUUID().toString(), "step", "check", "because", "");
        assertThat(status(seat.post("/records/" + first + "/withdrawal", fields)))
                .isEqualTo(422);
        fields.put("because", "nobody was trained that day");
        fields.put("step", "record");
        RecordId back = recorded(seat.post("/records/" + first + "/withdrawal", fields));
        assertThat(find(seat.laid, back).withdrawal()).isTrue();
        assertThat(text(seat.get("/records/" + first))).contains("was taken back", "nobody was trained that day");
        assertThat(status(seat.get("/records/" + first + "/correction"))).isBetween(400, 499);
        assertThat(status(seat.get("/records/" + back + "/withdrawal"))).isBetween(400, 499);
    }

    @Test
    void custodyIsDerivedAnewWhenItsClaimIsCorrected() {
        Desk.Seat seat = desk.sit(Role.STOREKEEPER);
        TestSite.Laid laid = seat.laid;
        RecordId issue = laid.in(() -> custodies.claim(
                laid.author(), laid.hood(), new Custody(Custody.Claim.ISSUED, null, null), laid.worker(), DAY));
        assertThat(laid.in(() -> custodies.inHand(laid.site().id(), laid.worker(), DAY.plusSeconds(60))))
                .containsExactly(laid.hood());
        recorded(send(
                seat,
                issue,
                "record",
                typed(
                        "cell-set", "M-1",
                        "cell-at", "2026-02-03T09:00:00Z",
                        "cell-claim", "issued",
                        "cell-worker", "W-2"),
                "wrong label read"));
        assertThat(laid.in(() -> custodies.inHand(laid.site().id(), laid.worker(), DAY.plusSeconds(60))))
                .isEmpty();
        assertThat(laid.in(() -> custodies.inHand(laid.site().id(), laid.other(), DAY.plusSeconds(60))))
                .containsExactly(laid.mask());
    }

    @Test
    void aReleasedHoldStaysReleasedWhenTheHoldIsCorrected() {
        Desk.Seat seat = desk.sit(Role.STOREKEEPER);
        TestSite.Laid laid = seat.laid;
        RecordId placed =
                told(laid, Draft.of(new Hold(Hold.Step.PLACED, Hold.Why.DEFECT, "cracked"), laid.hood(), DAY));
        RecordId released = told(
                laid,
                Draft.of(new Hold(Hold.Step.RELEASED, Hold.Why.DEFECT, "mended"), laid.hood(), DAY.plusSeconds(3600))
                        .item(placed));
        RecordId second = recorded(send(
                seat,
                placed,
                "record",
                typed(
                        "cell-about", "set:H-1",
                        "cell-at", "2026-02-03T08:00:00Z",
                        "cell-step", "placed",
                        "cell-why", "defect",
                        "cell-reason", "cracked"),
                "an hour earlier"));
        History.Version turned = find(laid, find(laid, released).replacedBy());
        assertThat(turned.told().item()).isEqualTo(second.value());
        assertThat(turned.told().fact()).isEqualTo(new Hold(Hold.Step.RELEASED, Hold.Why.DEFECT, "mended"));
    }

    @Test
    void aPassedFlowCheckCorrectedToAFailureTakesTheSetOutOfUse() {
        Desk.Seat seat = desk.sit(Role.STOREKEEPER);
        TestSite.Laid laid = seat.laid;
        RecordId check = told(
                laid,
                Draft.of(
                        new FlowCheck(
                                new BigDecimal("180"),
                                laid.indicator(),
                                null,
                                null,
                                new BigDecimal("180"),
                                new BigDecimal("170"),
                                BigDecimal.ZERO,
                                Outcome.PASS),
                        laid.hood(),
                        DAY));
        RecordId second = recorded(send(
                seat,
                check,
                "record",
                typed(
                        "cell-set", "H-1",
                        "cell-at", "2026-02-03T09:00:00Z",
                        "cell-reading", "150",
                        "cell-instrument", "IND-1"),
                "a typing mistake"));
        assertThat(((FlowCheck) find(laid, second).told().fact()).outcome()).isEqualTo(Outcome.FAIL);
        assertThat(current(laid, laid.hood(), Kind.HOLD)).hasSize(1);
    }

    @Test
    void theFormAsksOfAModelWhetherItIsACorrectionOrAChange() {
        Desk.Seat seat = desk.sit(Role.OFFICER);
        TestSite.Laid laid = seat.laid;
        History.Version held = current(laid, laid.hoodModel(), Kind.MODEL).get(0);
        RecordId id = held.told().id();
        Map<String, String> cells = typed(
                "cell-from", "2026-01-05T06:00:00Z",
                "cell-name", "Invented hood",
                "cell-type", "powered-hood",
                "cell-classes", "uk=TH2",
                "cell-skin_contact", "no",
                "cell-sizes", "M",
                "cell-seal_revision", "R1",
                "cell-minimum_flow", "180",
                "cell-flow_at", "local",
                "cell-battery_minutes", "480",
                "cell-filters", "particle",
                "cell-slots", "visor=V-1");
        assertThat(status(seat.get("/records/" + id + "/correction"))).isEqualTo(200);
        MvcResult unasked = send(seat, id, "check", cells, "the sheet says 180");
        assertThat(status(unasked)).isEqualTo(422);
        assertThat(text(unasked)).contains("href=\"#aim\"");
        cells.put("aim", "CHANGE");
        MvcResult early = send(seat, id, "check", cells, "");
        assertThat(text(early)).contains("A change begins after what it follows");
        cells.put("cell-from", "2026-02-01T00:00:00Z");
        RecordId change = recorded(send(seat, id, "record", cells, ""));
        assertThat(find(laid, change).told().corrects()).isNull();
        assertThat(find(laid, id).isCurrent()).isTrue();
        cells.put("cell-from", "2026-03-01T00:00:00Z");
        cells.put("cell-minimum_flow", "185");
        MvcResult overtaken = send(seat, id, "record", cells, "");
        assertThat(status(overtaken)).isEqualTo(422);
        assertThat(text(overtaken)).contains("By then another record stands", change.toString());
        cells.put("aim", "CORRECTION");
        cells.put("cell-from", "2026-01-05T06:00:00Z");
        cells.put("cell-minimum_flow", "175");
        RecordId corrected = recorded(send(seat, id, "record", cells, "the first sheet says 175"));
        assertThat(find(laid, corrected).told().corrects()).isEqualTo(id);
        assertThat(((ModelData) find(laid, corrected).told().fact()).minimumFlow())
                .isEqualByComparingTo("175");
    }

    @Test
    void decisionsPostingsAndResultsAreCorrectedTheSameWay() {
        Desk.Seat seat = desk.sit(Role.OFFICER);
        TestSite.Laid laid = seat.laid;
        RecordId decision = told(
                laid,
                Draft.of(new SiteDecision("P12M", "Owner", "first"), laid.site().id(), DAY)
                        .scope("training.interval"));
        Map<String, String> cells = typed(
                "aim", "CORRECTION",
                "cell-key", "training.interval",
                "cell-from", "2026-02-03T09:00:00Z",
                "cell-value", "soon",
                "cell-owner", "Owner",
                "cell-reason", "first");
        MvcResult shape = send(seat, decision, "check", cells, "it was six");
        assertThat(status(shape)).isEqualTo(422);
        cells.put("cell-value", "P6M");
        RecordId second = recorded(send(seat, decision, "record", cells, "it was six"));
        assertThat(((SiteDecision) find(laid, second).told().fact()).value()).isEqualTo("P6M");

        RecordId posting = told(
                laid,
                Draft.of(new Posting(Posting.Change.POSTED), laid.worker(), DAY).item(laid.task()));
        RecordId shorter = recorded(send(
                seat,
                posting,
                "record",
                typed(
                        "cell-worker", "W-1",
                        "cell-task", "BLAST",
                        "cell-from", "2026-02-03T09:00:00Z",
                        "cell-until", "2026-03-31",
                        "cell-change", "posted"),
                "it had an end"));
        assertThat(find(laid, shorter).told().until()).isEqualTo("2026-03-31T23:00:00Z");

        told(
                laid,
                Draft.of(
                                new Limit(
                                        new BigDecimal("0.1"),
                                        "mg/m3",
                                        null,
                                        Set.of(FilterKind.PARTICLE),
                                        false,
                                        "an invented rule",
                                        Mark.VERIFIED,
                                        null,
                                        null,
                                        null),
                                laid.site().id(),
                                DAY)
                        .scope("silica"));
        RecordId result = told(
                laid,
                Draft.of(
                                new ExposureResult(new BigDecimal("1.4"), "mg/m3", false, 480, null, null, null),
                                laid.task(),
                                DAY)
                        .scope("silica"));
        Desk.Seat hygienist = desk.sit(laid, Role.HYGIENIST);
        Map<String, String> sample = typed(
                "cell-task", "BLAST",
                "cell-substance", "silica",
                "cell-at", "2026-02-03T09:00:00Z",
                "cell-value", "0.14",
                "cell-unit", "ppm",
                "cell-below_detection", "no",
                "cell-minutes", "480");
        MvcResult unit = send(hygienist, result, "record", sample, "the point was lost");
        assertThat(status(unit)).isEqualTo(422);
        assertThat(text(unit)).contains("ppm", "mg/m³");
        sample.put("cell-unit", "mg/m3");
        RecordId right = recorded(send(hygienist, result, "record", sample, "the point was lost"));
        assertThat(((ExposureResult) find(laid, right).told().fact()).value()).isEqualByComparingTo("0.14");
    }

    private List<History.Version> current(TestSite.Laid laid, Id subject, Kind kind) {
        return laid.in(() -> history.of(laid.site().id(), subject, Instant.now().plusSeconds(60), 50).stream()
                .filter(version -> version.isCurrent() && version.kind() == kind)
                .toList());
    }

    /** Bo wore the hood that Ada called defective; the verdict of that wear is Bo's and the site's. */
    @Test
    void aWorkerSeesNobodyElsesVerdictsInTheFateOfAnOwnRecord() {
        Desk.Seat worker = desk.sit(Role.WORKER);
        TestSite.Laid laid = worker.laid;
        Author ada = new Author(laid.site().id(), worker.id(), Author.Via.FORM);
        RecordId defect = laid.in(() -> transaction.execute(status ->
                ledger.append(ada, Draft.of(new Defect(Defect.Step.FOUND, "hose", "split"), laid.hood(), DAY))));
        told(
                laid,
                Draft.of(new Wear(laid.task(), Wear.Step.WHOLE), laid.other(), DAY.plusSeconds(3600))
                        .item(laid.hood())
                        .until(DAY.plusSeconds(7200)));
        laid.run(() -> transaction.executeWithoutResult(status -> ledger.withdraw(
                laid.author(),
                Draft.of(new Defect(Defect.Step.FOUND, "hose", "split"), laid.hood(), DAY)
                        .correcting(defect, "another hose"))));
        assertThat(text(desk.sit(laid, Role.OFFICER).get("/records/" + defect))).contains("Bo Invented, BLAST");
        assertThat(text(worker.get("/records/" + defect)))
                .contains("another hose")
                .doesNotContain("Bo Invented");
    }
}
