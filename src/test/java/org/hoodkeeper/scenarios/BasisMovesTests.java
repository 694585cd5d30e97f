package org.hoodkeeper.scenarios;

import static org.hoodkeeper.rules.RequirementKind.ADEQUACY;
import static org.hoodkeeper.rules.RequirementKind.FILTER;
import static org.hoodkeeper.scenarios.AnswerAssert.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import org.hoodkeeper.assessment.Answer;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.ExposureResult.Period;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.SilicaAir;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.ledger.Draft;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** New results, new limits and mixtures move what a device must do, from their day, and leave what was known then. */
@ScenarioTest
class BasisMovesTests {

    private static final String FROM = "2026-05-21T06:00";
    private static final String UNTIL = "2026-05-21T12:00";

    @Autowired
    Story.Door door;

    private Story ferrow;

    /** T1 stands at 14.2 times the limit on six results, GM 0.615, GSD 1.47; H20 protects 20 times, H40 40 times. */
    @BeforeEach
    void sixResultsCarryTheAssessment() {
        ferrow = door.ferrow()
                .worker("Fay")
                .blockSplitting()
                .posted("Fay", "T1")
                .on("2026-05-01T12:00")
                .trained("Fay", "H20", "2026-05-01T09:00")
                .trained("Fay", "H40", "2026-05-01T09:00");
        assess("silica", "1.42", "2026-01-01T00:00", null);
        String[] values = {"0.62", "0.38", "1.10", "0.55", "0.81", "0.47"};
        for (int i = 0; i < values.length; i++) {
            sampled("silica", values[i], Period.SHIFT, "2025-11-" + (10 + i) + "T14:00");
        }
    }

    private void assess(String substance, String value, String from, LocalDate resultsSince) {
        ferrow.tell(Draft.of(
                new TaskBasis(
                        List.of(new TaskBasis.Exposure(substance, new BigDecimal(value), "mg/m3")),
                        TaskBasis.Mixture.ADDITIVE,
                        TaskBasis.Atmosphere.ORDINARY,
                        Set.of(),
                        MedicalOutcome.WorkRate.MODERATE,
                        "UTL95_70",
                        null,
                        null,
                        resultsSince,
                        null,
                        null,
                        "H. Ives",
                        null),
                ferrow.id("T1"),
                ferrow.instant(from)));
    }

    private void sampled(String substance, String value, Period period, String at) {
        ferrow.sampled(substance, value, period, at);
    }

    private Answer with(String model) {
        return ferrow.may("Fay", "T1").withModel(model, "M").from(FROM, UNTIL);
    }

    /** 1.9 and 1.6 more: UTL 2.67, 26.7 times the limit (SciPy 1.17.1): 20 falls short, 40 is enough. */
    @Test
    void newResultsTurnTheHoodThatWasEnough() {
        assertThat(with("H20")).isCleared();
        ferrow.on("2026-05-28T12:00");
        sampled("silica", "1.9", Period.SHIFT, "2026-05-20T14:00");
        sampled("silica", "1.6", Period.SHIFT, "2026-05-20T15:00");
        assertThat(with("H20")).isNotCleared().because(ADEQUACY, Why.SHORT_BY_RESULTS);
        assertThat(with("H40")).isCleared();
    }

    /** Sampled on 28 April, told on 28 May; the assessment of 10 May was told on the 12th and could not have it in mind. */
    @Test
    void whatTheLaboratoryToldAfterTheAssessmentCountsThoughItWasSampledBefore() {
        ferrow.on("2026-05-12T12:00");
        assess("silica", "0.5", "2026-05-10T00:00", LocalDate.of(2026, 4, 1));
        assertThat(with("H20")).isCleared();
        ferrow.on("2026-05-28T12:00");
        sampled("silica", "2.1", Period.SHIFT, "2026-04-28T14:00");
        assertThat(with("H20")).isNotCleared().because(ADEQUACY, Why.SHORT_BY_RESULTS);
        assertThat(ferrow.may("Fay", "T1")
                        .withModel("H20", "M")
                        .asKnownAt("2026-05-21T05:00")
                        .from(FROM, UNTIL))
                .isCleared();
    }

    /** The first of the two alone makes it 23.3 times (SciPy 1.17.1: UTL 2.324). */
    @Test
    void theyCountFromTheDayOfSamplingAndOnlyOnceTold() {
        ferrow.on("2026-05-28T12:00");
        sampled("silica", "1.9", Period.SHIFT, "2026-05-20T14:00");
        sampled("silica", "1.6", Period.SHIFT, "2026-05-20T15:00");
        assertThat(ferrow.may("Fay", "T1").withModel("H20", "M").from("2026-05-20T06:00", "2026-05-20T13:00"))
                .isCleared();
        assertThat(ferrow.may("Fay", "T1").withModel("H20", "M").from("2026-05-20T13:00", "2026-05-20T16:00"))
                .isNotCleared()
                .isClearedUntil(ferrow.instant("2026-05-20T14:00"), ADEQUACY);
        assertThat(ferrow.may("Fay", "T1")
                        .withModel("H20", "M")
                        .asKnownAt("2026-05-21T05:00")
                        .from(FROM, UNTIL))
                .isCleared();
    }

    /** A lower figure needs a hygienist: nine low results alone relax nothing; assessed anew on them, the mask will do. */
    @Test
    void lowerResultsCountOnceTheTaskIsAssessedAgain() {
        ferrow.on("2026-05-28T12:00");
        assess("silica", "2.5", "2026-05-02T00:00", null);
        for (int i = 1; i <= 9; i++) {
            sampled("silica", "0.0" + i, Period.SHIFT, "2026-05-0" + i + "T14:00");
        }
        assertThat(with("H20")).isNotCleared().because(ADEQUACY, Why.FACTOR_SHORT);
        assess("silica", "0.2", "2026-05-10T00:00", LocalDate.of(2026, 5, 1));
        assertThat(with("H20")).isCleared();
    }

    /** A peak of 0.2 ppm from before the limit was stated in mg/m³ cannot be set against it: not known, whatever was measured since. */
    @Test
    void aPeakInAnotherUnitIsUnknown() {
        Limit limit = new Limit(
                new BigDecimal("0.1"),
                "mg/m3",
                null,
                Set.of(FilterKind.PARTICLE),
                false,
                "invented",
                Mark.INVENTED,
                new BigDecimal("0.3"),
                null,
                null);
        ferrow.tell(Draft.of(limit, ferrow.site().id(), ferrow.instant("2026-05-01T00:00"))
                        .scope("silica"))
                .on("2026-05-28T12:00")
                .tell(Draft.of(
                                new ExposureResult(
                                        new BigDecimal("0.2"),
                                        "ppm",
                                        false,
                                        null,
                                        null,
                                        null,
                                        null,
                                        null,
                                        Period.SHORT_TERM,
                                        List.of()),
                                ferrow.id("T1"),
                                ferrow.instant("2026-05-19T14:00"))
                        .scope("silica"));
        sampled("silica", "0.25", Period.SHORT_TERM, "2026-05-20T14:00");
        assertThat(with("H20")).isNotCleared().because(ADEQUACY, Why.UNIT_DIFFERS);
    }

    private RecordId mends(RecordId old, Draft stated) {
        return ferrow.here(all -> all.lookback()
                .corrections()
                .correct(ferrow.viewer(Role.HYGIENIST), old, stated, "the data sheet was read in the wrong column"));
    }

    private Draft cobaltLimit(String value, String unit) {
        Limit limit = new Limit(
                new BigDecimal(value), unit, null, Set.of(FilterKind.PARTICLE), false, "invented", Mark.INVENTED);
        return Draft.of(limit, ferrow.site().id(), ferrow.instant("2020-01-01")).scope("cobalt");
    }

    private Draft cobaltSampled(String unit) {
        return Draft.of(
                        new ExposureResult(new BigDecimal("0.5"), unit, false, null, null, null, null),
                        ferrow.id("T1"),
                        ferrow.instant("2025-11-20T14:00"))
                .scope("cobalt");
    }

    private Draft silicaAndCobalt(String unit) {
        return Draft.of(
                new TaskBasis(
                        List.of(
                                new TaskBasis.Exposure("silica", new BigDecimal("1.42"), "mg/m3"),
                                new TaskBasis.Exposure("cobalt", new BigDecimal("0.5"), unit)),
                        TaskBasis.Mixture.ADDITIVE,
                        TaskBasis.Atmosphere.ORDINARY,
                        Set.of(),
                        MedicalOutcome.WorkRate.MODERATE,
                        "UTL95_70",
                        null,
                        null),
                ferrow.id("T1"),
                ferrow.instant("2026-05-02T00:00"));
    }

    /**
     * 0.1 ppm should have been 0.05 mg/m³: until result and assessment have followed nothing is set against it. Then 14.2 of silica
     * and 10 of cobalt are 24.2, above 20.
     */
    @Test
    void aSlipInAUnitIsMendedInTheLimitThenInWhatWasSetAgainstIt() {
        RecordId limit = ferrow.record(cobaltLimit("0.1", "ppm"));
        RecordId result = ferrow.record(cobaltSampled("ppm"));
        ferrow.on("2026-05-02T12:00");
        RecordId assessment = ferrow.record(silicaAndCobalt("ppm"));
        assertThat(with("H20")).isCleared();
        ferrow.on("2026-05-28T12:00");
        mends(limit, cobaltLimit("0.05", "mg/m3"));
        assertThat(with("H40")).isNotCleared().because(ADEQUACY, Why.UNIT_DIFFERS);
        mends(result, cobaltSampled("mg/m3"));
        assertThat(with("H40")).isNotCleared().because(ADEQUACY, Why.UNIT_DIFFERS);
        mends(assessment, silicaAndCobalt("mg/m3"));
        assertThat(with("H40")).isCleared();
        assertThat(with("H20")).isNotCleared().onlyBecauseOf(ADEQUACY);
    }

    @Test
    void tooFewForTheStatisticTheHighestNewOneCounts() {
        assess("silica", "0.5", "2026-05-02T00:00", LocalDate.of(2026, 5, 1));
        ferrow.on("2026-05-28T12:00");
        sampled("silica", "2.1", Period.SHIFT, "2026-05-20T14:00");
        assertThat(with("H20")).isNotCleared().because(ADEQUACY, Why.SHORT_BY_RESULTS);
    }

    /** 1.42 of 0.1 is 14.2; of 0.05 it is 28.4. The limit changes on its day and the day before keeps the old one. */
    @Test
    void aLowerLimitTurnsTheHoodOnItsDay() {
        Limit lower = new Limit(
                new BigDecimal("0.05"), "mg/m3", null, Set.of(FilterKind.PARTICLE), false, "invented", Mark.INVENTED);
        ferrow.on("2026-05-02T12:00")
                .tell(Draft.of(lower, ferrow.site().id(), ferrow.instant("2026-05-21T00:00"))
                        .scope("silica"));
        assertThat(ferrow.may("Fay", "T1").withModel("H20", "M").from("2026-05-20T06:00", "2026-05-20T12:00"))
                .isCleared();
        assertThat(with("H20")).isNotCleared().because(ADEQUACY, Why.FACTOR_SHORT);
        assertThat(with("H40")).isCleared();
    }

    /** 14.2 + 0.7 of 0.1 more: 21.2 when effects add up. Cobalt was not named in the assessment, and is in the air all the same. */
    @Test
    void aSubstanceFoundLaterAddsUp() {
        ferrow.limit("cobalt", "0.1", FilterKind.PARTICLE).on("2026-05-28T12:00");
        sampled("cobalt", "0.7", Period.SHIFT, "2026-05-20T14:00");
        assertThat(with("H20")).isNotCleared().because(ADEQUACY, Why.SHORT_BY_RESULTS);
        assertThat(with("H40")).isCleared();
    }

    @Test
    void whatIsFoundLaterMustBeStoppedByTheFilterToo() {
        ferrow.limit("solvent", "50", FilterKind.A).on("2026-05-28T12:00");
        sampled("solvent", "20", Period.SHIFT, "2026-05-20T14:00");
        assertThat(with("H40")).isNotCleared().because(FILTER, Why.FILTER_SHORT);
    }

    @Test
    void aFoundSubstanceWithoutALimitIsUnknownAndThatIsNotMet() {
        ferrow.on("2026-05-28T12:00");
        sampled("nickel", "0.01", Period.SHIFT, "2026-05-20T14:00");
        assertThat(with("H40")).isNotCleared().because(ADEQUACY, Why.LIMIT_UNKNOWN);
    }

    /** A peak of 9 against a short-term limit of 0.3 is 30 times: above 20, within 40, while the shift stays at 14.2. */
    @Test
    void aPeakIsJudgedAgainstItsOwnLimit() {
        Limit limit = new Limit(
                new BigDecimal("0.1"),
                "mg/m3",
                null,
                Set.of(FilterKind.PARTICLE),
                false,
                "invented",
                Mark.INVENTED,
                new BigDecimal("0.3"),
                null,
                null);
        ferrow.tell(Draft.of(limit, ferrow.site().id(), ferrow.instant("2026-05-01T00:00"))
                        .scope("silica"))
                .on("2026-05-28T12:00");
        sampled("silica", "9", Period.SHORT_TERM, "2026-05-20T14:00");
        assertThat(with("H20")).isNotCleared().because(ADEQUACY, Why.PEAK_SHORT);
        assertThat(with("H40")).isCleared();
    }

    /** Twelve hours leave half of the limit (Brief and Scala): 14.2 becomes 28.4. */
    @Test
    void aLongShiftLeavesLessOfTheLimit() {
        ferrow.tell(Draft.of(SilicaAir.ofTwelveHours("1.42"), ferrow.id("T1"), ferrow.instant("2026-05-02T00:00")));
        ferrow.on("2026-05-28T12:00");
        assertThat(with("H20")).isNotCleared().because(ADEQUACY, Why.FACTOR_SHORT);
        assertThat(with("H40")).isCleared();
    }

    /** 1.42 is within 20 times the limit, and above the 1 mg/m³ for which the filters may be used. */
    @Test
    void aCartridgeHasALimitOfItsOwn() {
        Limit limit = new Limit(
                new BigDecimal("0.1"),
                "mg/m3",
                null,
                Set.of(FilterKind.PARTICLE),
                false,
                "invented",
                Mark.INVENTED,
                null,
                null,
                BigDecimal.ONE);
        ferrow.tell(Draft.of(limit, ferrow.site().id(), ferrow.instant("2026-05-01T00:00"))
                        .scope("silica"))
                .on("2026-05-28T12:00");
        assertThat(with("H40")).isNotCleared().because(ADEQUACY, Why.BEYOND_FILTER);
    }
}
