package org.hoodkeeper.scenarios;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import org.hoodkeeper.calculation.BetweenWorkers;
import org.hoodkeeper.calculation.ComplianceTest;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.Observation;
import org.hoodkeeper.facts.Posting;
import org.hoodkeeper.facts.SilicaAir;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.Wear;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.ledger.Draft;
import org.hoodkeeper.reporting.BasisMove;
import org.hoodkeeper.reporting.BasisMoves;
import org.hoodkeeper.reporting.Moment;
import org.hoodkeeper.reporting.TaskSheet;
import org.hoodkeeper.reporting.TaskSheets;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/** The lists that a hygienist works off when the basis moves, and what is only adequate on paper. */
@ScenarioTest
class WhomAMoveTurnsTests {

    @Autowired
    Story.Door door;

    @Autowired
    BasisMoves moves;

    @Autowired
    TaskSheets sheets;

    @Autowired
    PlatformTransactionManager transactions;

    private Story ferrow;

    /** T1 at 14.2 times the limit. Fay is trained on H20 alone, Gus on both hoods, Hal on none. */
    @BeforeEach
    void threePeopleAtBlockSplitting() {
        ferrow = door.ferrow()
                .worker("Fay")
                .worker("Gus")
                .worker("Hal")
                .blockSplitting()
                .set("S-1", "H20", "M")
                .posted("Fay", "T1")
                .posted("Gus", "T1")
                .posted("Hal", "T1")
                .on("2026-05-01T12:00")
                .trained("Fay", "H20", "2026-05-01T09:00")
                .trained("Gus", "H20", "2026-05-01T09:00")
                .trained("Gus", "H40", "2026-05-01T09:00");
    }

    private void sampled(String value, String at) {
        ferrow.sampled("silica", value, ExposureResult.Period.SHIFT, at);
    }

    private BasisMove move() {
        return SiteBinding.in(ferrow.site().id(), () -> moves.of(ferrow.officer(), "T1", null));
    }

    private TaskSheet sheet() {
        return SiteBinding.in(
                ferrow.site().id(),
                () -> sheets.of(
                        ferrow.site().id(),
                        "T1",
                        new Moment(
                                ferrow.instant("2026-05-28T12:00"),
                                ferrow.instant("2026-05-28T12:00"),
                                Moment.View.NOW)));
    }

    /** A result of 2.5 is 25 times the limit: above 20, within 40. */
    @Test
    void whoIsTurnedWhoStaysAndWhichWearsAreReviewed() {
        ferrow.on("2026-05-28T08:00")
                .wore("Fay", "S-1", "T1", "2026-05-19T07:00", "2026-05-19T11:00")
                .wore("Fay", "S-1", "T1", "2026-05-21T07:00", "2026-05-21T11:00")
                .on("2026-05-28T11:00");
        sampled("2.5", "2026-05-20T14:00");
        ferrow.on("2026-05-28T12:00");
        BasisMove move = move();
        assertThat(move.before().ratio()).isEqualByComparingTo("14.2");
        assertThat(move.sheet().ratio()).isEqualByComparingTo("25");
        assertThat(move.since()).isEqualTo(ferrow.instant("2026-05-20T14:00"));
        assertThat(move.turned()).extracting(one -> one.row().worker().name()).containsExactly("Fay");
        assertThat(move.turned().get(0).ways())
                .containsExactly(new BasisMove.Way("H40", BasisMove.Step.NEEDS_TRAINING, List.of()));
        assertThat(move.still()).extracting(row -> row.worker().name()).containsExactly("Gus");
        assertThat(move.otherwise()).isEqualTo(1);
        assertThat(move.wears()).hasSize(1).first().satisfies(wear -> {
            assertThat(wear.worker().name()).isEqualTo("Fay");
            assertThat(wear.set()).isEqualTo("S-1");
            assertThat(wear.model()).isEqualTo("H20");
            assertThat(wear.from()).isEqualTo(ferrow.instant("2026-05-21T07:00"));
            assertThat(wear.until()).isEqualTo(ferrow.instant("2026-05-21T11:00"));
        });
    }

    /** As above, before it is told: Fay will be turned, and nothing is kept of the trial. */
    @Test
    void whatIsAboutToBeToldNamesWhomItWillTurn() {
        ferrow.on("2026-05-28T12:00");
        Instant told = ferrow.instant("2026-05-28T12:00").minusSeconds(1);
        BasisMove preview = SiteBinding.in(
                ferrow.site().id(),
                () -> new TransactionTemplate(transactions).execute(status -> {
                    status.setRollbackOnly();
                    sampled("2.5", "2026-05-20T14:00");
                    return moves.preview(ferrow.officer(), "T1", told, ferrow.instant("2026-05-20T14:00"));
                }));
        assertThat(preview.before().ratio()).isEqualByComparingTo("14.2");
        assertThat(preview.sheet().ratio()).isEqualByComparingTo("25");
        assertThat(preview.turned())
                .extracting(one -> one.row().worker().name())
                .containsExactly("Fay");
        assertThat(preview.freed()).isEmpty();
        assertThat(sheet().ratio()).isEqualByComparingTo("14.2");
    }

    /** In at 07:00 and out at 11:00, each told by itself; the sample was taken in between. */
    @Test
    void whoWasInsideWhenTheSampleWasTakenIsReviewed() {
        ferrow.on("2026-05-28T08:00");
        gate("2026-05-20T07:00", Wear.Step.ENTRY);
        gate("2026-05-20T11:00", Wear.Step.EXIT);
        ferrow.on("2026-05-28T11:00");
        sampled("2.5", "2026-05-20T09:00");
        ferrow.on("2026-05-28T12:00");
        assertThat(move().wears()).hasSize(1).first().satisfies(wear -> {
            assertThat(wear.from()).isEqualTo(ferrow.instant("2026-05-20T07:00"));
            assertThat(wear.until()).isEqualTo(ferrow.instant("2026-05-20T11:00"));
        });
    }

    private void gate(String at, Wear.Step step) {
        ferrow.tell(Draft.of(new Wear((TaskId) ferrow.id("T1"), step), ferrow.id("Fay"), ferrow.instant(at))
                .item(ferrow.id("S-1")));
    }

    /** Told one after the other: what was worn since the first of them is reviewed, not only since the last. */
    @Test
    void wearsSinceTheFirstOfSeveralMovesAreReviewed() {
        ferrow.on("2026-05-28T08:00")
                .wore("Fay", "S-1", "T1", "2026-05-21T07:00", "2026-05-21T11:00")
                .on("2026-05-28T09:00");
        Instant before = ferrow.instant("2026-05-28T09:00");
        ferrow.on("2026-05-28T10:00");
        Limit lower = new Limit(
                new BigDecimal("0.05"), "mg/m3", null, Set.of(FilterKind.PARTICLE), false, "invented", Mark.INVENTED);
        ferrow.tell(Draft.of(lower, ferrow.site().id(), ferrow.instant("2026-05-20T00:00"))
                .scope("silica"));
        sampled("2.5", "2026-05-25T14:00");
        ferrow.on("2026-05-28T12:00");
        BasisMove move = SiteBinding.in(ferrow.site().id(), () -> moves.of(ferrow.officer(), "T1", before));
        assertThat(move.since()).isEqualTo(ferrow.instant("2026-05-20T00:00"));
        assertThat(move.wears()).hasSize(1);
    }

    private void assessed(String value, String at) {
        ferrow.tell(Draft.of(SilicaAir.of(value), ferrow.id("T1"), ferrow.instant(at)));
    }

    /** 2.5 moved the air to 25 times; the assessment of the day after says the same. What turned people is the result. */
    @Test
    void anAssessmentThatOnlyConfirmsIsNoMove() {
        ferrow.on("2026-05-28T09:00");
        sampled("2.5", "2026-05-20T14:00");
        ferrow.on("2026-05-28T10:00");
        assessed("2.5", "2026-05-28T10:00");
        ferrow.on("2026-05-28T12:00");
        BasisMove move = move();
        assertThat(move.before().ratio()).isEqualByComparingTo("14.2");
        assertThat(move.sheet().ratio()).isEqualByComparingTo("25");
        assertThat(move.turned()).extracting(one -> one.row().worker().name()).containsExactly("Fay");
    }

    /** From 20 to 25 May the hood was too weak at 25 times; by the assessment of 25 May, at 5 times, it is enough again. */
    @Test
    void aWearIsSetAgainstWhatWasInForceWhileItLasted() {
        ferrow.on("2026-05-28T08:00")
                .wore("Fay", "S-1", "T1", "2026-05-19T07:00", "2026-05-19T11:00")
                .wore("Fay", "S-1", "T1", "2026-05-21T07:00", "2026-05-21T11:00")
                .wore("Fay", "S-1", "T1", "2026-05-26T07:00", "2026-05-26T11:00");
        Instant before = ferrow.instant("2026-05-28T08:30");
        ferrow.on("2026-05-28T09:00");
        sampled("2.5", "2026-05-20T14:00");
        ferrow.on("2026-05-28T10:00");
        assessed("0.5", "2026-05-25T00:00");
        ferrow.on("2026-05-28T12:00");
        BasisMove move = SiteBinding.in(ferrow.site().id(), () -> moves.of(ferrow.officer(), "T1", before));
        assertThat(move.sheet().enough()).contains("H20");
        assertThat(move.wears())
                .extracting(BasisMove.Wearing::from)
                .containsExactly(ferrow.instant("2026-05-21T07:00"));
    }

    @Test
    void moreWearsThanAreListedAreCounted() {
        ferrow.on("2026-05-28T08:00");
        for (int i = 0; i < 502; i++) {
            Instant from = ferrow.instant("2026-05-21T00:00").plusSeconds(600L * i);
            ferrow.tell(Draft.of(new Wear((TaskId) ferrow.id("T1"), Wear.Step.WHOLE), ferrow.id("Fay"), from)
                    .until(from.plusSeconds(300))
                    .item(ferrow.id("S-1")));
        }
        ferrow.on("2026-05-28T11:00");
        sampled("2.5", "2026-05-20T14:00");
        ferrow.on("2026-05-28T12:00");
        BasisMove move = move();
        assertThat(move.wears()).hasSize(500);
        assertThat(move.wearsInAll()).isEqualTo(502);
    }

    /** Trained in May 2026, nobody is cleared in June 2028 anyway: 1.42 of 0.05 is 28.4 times, and H20 and M20 no longer do. */
    @Test
    void aLimitAheadSaysWhatIsRequiredThoughNobodyIsClearedThen() {
        ferrow.on("2026-05-28T12:00");
        Instant told = ferrow.instant("2026-05-28T12:00").minusSeconds(1);
        Instant from = ferrow.instant("2028-06-01T00:00");
        BasisMove preview = SiteBinding.in(
                ferrow.site().id(),
                () -> new TransactionTemplate(transactions).execute(status -> {
                    status.setRollbackOnly();
                    Limit lower = new Limit(
                            new BigDecimal("0.05"),
                            "mg/m3",
                            null,
                            Set.of(FilterKind.PARTICLE),
                            false,
                            "invented",
                            Mark.INVENTED);
                    ferrow.tell(Draft.of(lower, ferrow.site().id(), from).scope("silica"));
                    return moves.previewLimit(ferrow.officer(), "silica", told, from)
                            .get(0);
                }));
        assertThat(preview.turned()).isEmpty();
        assertThat(preview.isAnybodyJudged()).isFalse();
        assertThat(preview.before().enough()).containsExactly("H20", "H40", "M20");
        assertThat(preview.sheet().enough()).containsExactly("H40");
        assertThat(preview.weakened()).extracting(row -> row.worker().name()).contains("Fay");
    }

    /** Ivy was posted to T1 by mistake; looks at her say nothing of T1. */
    @Test
    void aPostingThatWasCorrectedBringsNoLooks() {
        ferrow.worker("Ivy").task("T2", "silica", "0.5").on("2026-05-02T12:00");
        RecordId mistaken = ferrow.record(
                Draft.of(new Posting(Posting.Change.POSTED), ferrow.id("Ivy"), ferrow.instant("2026-05-02T08:00"))
                        .item(ferrow.id("T1")));
        ferrow.on("2026-05-20T12:00")
                .tell(Draft.of(new Posting(Posting.Change.POSTED), ferrow.id("Ivy"), ferrow.instant("2026-05-02T08:00"))
                        .item(ferrow.id("T2"))
                        .correcting(mistaken, "wrong task"))
                .tell(Draft.of(
                        new Observation(Observation.Seen.NOT_WORN, null),
                        ferrow.id("Ivy"),
                        ferrow.instant("2026-05-10T10:00")));
        ferrow.on("2026-05-28T12:00");
        assertThat(sheet().seen()).isNull();
    }

    /** Nothing new was measured, and yet the basis moved: the site chose another statistic. */
    @Test
    void anotherStatisticIsAMoveToo() {
        ferrow.on("2026-05-28T11:00")
                .tell(Draft.of(
                                new SiteDecision("UTL95_95", "H. Ives", "few results"),
                                ferrow.site().id(),
                                ferrow.instant("2026-05-28T11:00"))
                        .scope("exposure.statistic"));
        ferrow.on("2026-05-28T12:00");
        assertThat(move().before().moment().knownAt())
                .isBetween(ferrow.instant("2026-05-28T10:59"), ferrow.instant("2026-05-28T11:01"));
    }

    /** The new assessment is over at once: nobody lacks protection, and yet nobody may go in. */
    @Test
    void whomTheAssessmentStopsForSomethingElseIsNamedApart() {
        ferrow.on("2026-05-27T12:00")
                .tell(Draft.of(
                        new TaskBasis(
                                List.of(new TaskBasis.Exposure("silica", new BigDecimal("1.42"), "mg/m3")),
                                TaskBasis.Mixture.ADDITIVE,
                                TaskBasis.Atmosphere.ORDINARY,
                                Set.of(),
                                MedicalOutcome.WorkRate.MODERATE,
                                null,
                                LocalDate.of(2026, 5, 27),
                                null),
                        ferrow.id("T1"),
                        ferrow.instant("2026-05-27T11:00")));
        ferrow.on("2026-05-28T12:00");
        BasisMove move = move();
        assertThat(move.turned()).isEmpty();
        assertThat(move.stopped()).extracting(row -> row.worker().name()).containsExactly("Fay", "Gus");
        assertThat(move.otherwise()).isEqualTo(1);
    }

    /** Twelve hours leave 0.05 of the limit: six results with UTL 0.071 (SciPy 1.17.1) keep 0.1, and not 0.05. */
    @Test
    void aLongShiftAlsoCountsForTheAirItself() {
        ferrow.on("2026-05-27T12:00")
                .tell(Draft.of(SilicaAir.ofTwelveHours("0.08"), ferrow.id("T1"), ferrow.instant("2026-05-02T00:00")));
        String[] values = {"0.031", "0.019", "0.055", "0.0275", "0.0405", "0.0235"};
        for (int i = 0; i < values.length; i++) {
            sampled(values[i], "2026-05-1" + i + "T14:00");
        }
        ferrow.on("2026-05-28T12:00");
        TaskSheet.Samples samples = sheet().samples().get(0);
        assertThat(samples.limitValue()).isEqualByComparingTo("0.05");
        assertThat(samples.compliance()).isNotNull();
        assertThat(samples.compliance().result()).isEqualTo(ComplianceTest.Result.NOT_COMPLIANT);
    }

    /** 2.5 ppm came in before the limit was stated in mg/m³: no figure is made of both. */
    @Test
    void resultsInAnotherUnitThanTheLimitMakeNoStatistic() {
        ferrow.on("2026-05-27T12:00");
        for (int i = 0; i < 6; i++) {
            ferrow.tell(Draft.of(
                            new ExposureResult(new BigDecimal("0.0" + (i + 1)), "ppm", false, null, null, null, null),
                            ferrow.id("T1"),
                            ferrow.instant("2026-05-1" + i + "T14:00"))
                    .scope("silica"));
        }
        ferrow.on("2026-05-28T12:00");
        TaskSheet.Samples samples = sheet().samples().get(0);
        assertThat(samples.statistics()).isNull();
        assertThat(samples.compliance()).isNull();
        assertThat(samples.refused()).isNotNull();
        assertThat(samples.refused().code()).isEqualTo("exposure.unit.differs");
    }

    @Test
    void aResultThatChangesNothingTurnsNobody() {
        ferrow.on("2026-05-28T11:00");
        sampled("0.4", "2026-05-20T14:00");
        ferrow.on("2026-05-28T12:00");
        assertThat(move().turned()).isEmpty();
        assertThat(move().wears()).isEmpty();
        assertThat(move().still()).hasSize(2);
    }

    /** 30 looks, 2 with the visor up: 6.7 %, exactly 0.8 to 22.1 %; 8.8 is left of 20 and 11.1 of 40; 10 min of 480 allowed. */
    @Test
    void adequateOnPaperOnly() {
        ferrow.on("2026-05-27T12:00");
        for (int i = 0; i < 30; i++) {
            Observation.Seen seen = i < 2 ? Observation.Seen.LIFTED_IN_AREA : Observation.Seen.WORN_RIGHT;
            ferrow.tell(Draft.of(
                    new Observation(seen, null),
                    ferrow.id(i % 2 == 0 ? "Fay" : "Gus"),
                    ferrow.instant("2026-05-0" + (2 + i % 8) + "T10:" + (10 + i))));
        }
        ferrow.on("2026-05-28T12:00");
        TaskSheet sheet = sheet();
        assertThat(sheet.ratio()).isEqualByComparingTo("14.2");
        assertThat(sheet.seen()).isNotNull();
        assertThat(sheet.seen().seen()).isEqualTo(2);
        assertThat(sheet.seen().of()).isEqualTo(30);
        assertThat(sheet.seen().lower()).isEqualTo(0.008, within(0.0005));
        assertThat(sheet.seen().upper()).isEqualTo(0.221, within(0.0005));
        TaskSheet.ModelLine h20 = line(sheet, "H20");
        assertThat(h20.stand()).isEqualTo(TaskSheet.Stand.ENOUGH);
        assertThat(h20.inPractice()).isCloseTo(new BigDecimal("8.8"), within(new BigDecimal("0.05")));
        assertThat(h20.inPractice()).isLessThan(sheet.ratio());
        assertThat(h20.unwornMinutes()).isEqualTo(10);
        assertThat(line(sheet, "H40").inPractice()).isCloseTo(new BigDecimal("11.1"), within(new BigDecimal("0.05")));
        assertThat(line(sheet, "H40").unwornMinutes()).isEqualTo(22);
    }

    /** HSG53: factors of at least 14.2; TH2 is the weakest hood that will do, TH1 (10) is not listed. */
    @Test
    void everyClassThatWouldDoIsListed() {
        ferrow.on("2026-05-28T12:00");
        TaskSheet sheet = sheet();
        assertThat(sheet.classes())
                .extracting(TaskSheet.ClassLine::deviceClass)
                .contains("TH2", "TH3", "half P3", "full P3")
                .doesNotContain("TH1", "half P2", "FFP2");
        assertThat(sheet.classes().stream()
                        .filter(line -> line.deviceClass().equals("TH3"))
                        .findFirst())
                .hasValueSatisfying(line -> assertThat(line.margin()).isEqualByComparingTo("2.81"));
        assertThat(line(sheet, "H20").use().most().concentration()).isEqualByComparingTo("2");
    }

    /** Nine results of three people: 83 % of the variance lies between them (NumPy 2, SciPy 1.17.1). Nobody's name is on the sheet. */
    @Test
    void peopleWhoDifferAreToBeLookedAtEach() {
        ferrow.on("2026-05-27T12:00");
        String[] people = {"Fay", "Fay", "Fay", "Gus", "Gus", "Gus", "Gus", "Hal", "Hal"};
        String[] values = {"0.62", "0.38", "1.10", "0.15", "0.22", "0.12", "0.18", "0.55", "0.81"};
        for (int i = 0; i < people.length; i++) {
            ferrow.tell(Draft.of(
                            new ExposureResult(new BigDecimal(values[i]), "mg/m3", false, null, null, people[i], null),
                            ferrow.id("T1"),
                            ferrow.instant("2026-05-1" + i + "T14:00"))
                    .scope("silica"));
        }
        ferrow.on("2026-05-28T12:00");
        TaskSheet.Samples samples = sheet().samples().get(0);
        assertThat(samples.workers()).isNotNull();
        assertThat(samples.workers().share()).isCloseTo(0.8298890719, within(1e-9));
        assertThat(samples.workers().test()).isEqualTo(BetweenWorkers.Test.INDIVIDUAL);
    }

    private static TaskSheet.ModelLine line(TaskSheet sheet, String code) {
        return sheet.models().stream()
                .filter(line -> line.code().equals(code))
                .findFirst()
                .orElseThrow();
    }
}
