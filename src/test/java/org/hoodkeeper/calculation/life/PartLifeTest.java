package org.hoodkeeper.calculation.life;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.assertj.core.data.Percentage;
import org.hoodkeeper.calculation.Published;
import org.hoodkeeper.calculation.life.ReplacementDue.LifeFrom;
import org.hoodkeeper.calculation.life.ReplacementDue.Limit;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PartLifeTest {

    private static List<Life> lives(String dataSet, String length, String event, String failed, double unit) {
        return Published.rows(dataSet).stream()
                .map(row -> new Life(
                        Double.parseDouble(row.get(length)) / unit,
                        row.get(event).equals(failed) ? Life.End.FAILED : Life.End.STILL_GOOD))
                .toList();
    }

    private static List<Life> group(String dataSet, String column, String group, String length) {
        return Published.rows(dataSet).stream()
                .filter(row -> row.get(column).equals(group))
                .map(row -> new Life(
                        Double.parseDouble(row.get(length)),
                        row.get("event").equals("1") ? Life.End.FAILED : Life.End.STILL_GOOD))
                .toList();
    }

    /** NIST/SEMATECH e-Handbook 8.4.1.3: ten failures, ten units stopped at 500 h. */
    @Test
    void tenFailuresOfTwenty() {
        WeibullLife life = WeibullLife.of(lives("nist_weibull_8413", "hours", "event", "1", 1));
        assertThat(life.failures()).isEqualTo(10);
        assertThat(life.scale()).isCloseTo(606.5280, within(0.001));
        assertThat(life.shape()).isCloseTo(1.7208, within(0.00005));
        assertThat(life.logLikelihood()).isCloseTo(-75.135, within(0.0005));
        assertThat(life.mean()).isCloseTo(540.737, within(0.001));
        assertThat(life.deviation()).isCloseTo(323.806, within(0.001));
    }

    /** Generator fans, 12 failures of 70; shape 1.0584, scale 26.2968 thousand hours. */
    @Test
    void mostFansStillRun() {
        WeibullLife life = WeibullLife.of(lives("fan_failures_nelson1982", "hours", "cens", "0", 1000));
        assertThat(life.shape()).isCloseTo(1.0584, Percentage.withPercentage(0.01));
        assertThat(life.scale()).isCloseTo(26.2968, Percentage.withPercentage(0.001));
        assertThat(life.advice()).isEqualTo(WeibullLife.Advice.INSPECT);
    }

    /** Published 2.149 and 28.99. */
    @Test
    void twentyTimes() {
        WeibullLife life = WeibullLife.of(lives("weibull_censored_20", "t", "event", "1", 1));
        assertThat(life.shape()).isCloseTo(2.149, Percentage.withPercentage(0.1));
        assertThat(life.scale()).isCloseTo(28.99, Percentage.withPercentage(0.1));
    }

    /** Shape 5.4, scale 52 wears: a tenth has failed by 34.3, by the distribution's own formula. */
    @Test
    void partsThatWearOutAreChangedByAge() {
        WeibullLife life = new WeibullLife(5.4, 52, 12, 0);
        assertThat(life.b(10)).isCloseTo(34.3, within(0.05));
        assertThat(life.survival(life.b(10))).isCloseTo(0.9, within(1e-12));
        assertThat(life.advice()).isEqualTo(WeibullLife.Advice.CHANGE_BY_AGE);
    }

    @Test
    void theShapeAdvisesOnlyWhatTheFailuresCarry() {
        assertThat(new WeibullLife(1.0, 52, 12, 0).advice()).isEqualTo(WeibullLife.Advice.INSPECT);
        assertThat(new WeibullLife(0.5, 52, 12, 0).advice()).isEqualTo(WeibullLife.Advice.LOOK_AT_THE_LOT);
        assertThat(new WeibullLife(5.4, 52, 3, 0).advice()).isEqualTo(WeibullLife.Advice.TOO_FEW);
        assertThat(new WeibullLife(1.5, 52, 5, 0).advice())
                .as("1.5 from five failures may as well be 1")
                .isEqualTo(WeibullLife.Advice.INSPECT);
    }

    @Test
    void withoutAFailureNothingCanBeSaid() {
        assertThatThrownBy(() -> WeibullLife.of(List.of(new Life(5, Life.End.STILL_GOOD))))
                .isInstanceOf(Refused.class)
                .hasMessageContaining("calculation.life.noFailure");
        assertThatThrownBy(() -> WeibullLife.of(List.of(new Life(5, Life.End.FAILED), new Life(5, Life.End.FAILED))))
                .isInstanceOf(Refused.class);
    }

    /** Freireich 1963, remission under 6-MP; the published curve is from memory and was recomputed. */
    @ParameterizedTest
    @CsvSource({
        "6, 0.857, 0.0764",
        "7, 0.807, 0.0869",
        "10, 0.753, 0.0963",
        "13, 0.690, 0.1068",
        "16, 0.627, 0.1141",
        "22, 0.538, 0.1282",
        "23, 0.448, 0.1346"
    })
    void remission(double week, double survival, double error) {
        KaplanMeier curve = KaplanMeier.of(group("leukemia_6mp_freireich", "group", "6MP", "weeks"));
        assertThat(curve.survival(week)).isCloseTo(survival, within(0.0005));
        assertThat(curve.steps().stream().filter(step -> step.length() == week).findFirst())
                .get()
                .extracting(KaplanMeier.Step::error)
                .satisfies(found -> assertThat(found).isCloseTo(error, within(0.00006)));
    }

    /** Miller, acute myelogenous leukaemia, maintained group: curve, standard errors and median as in R's survival tests. */
    @ParameterizedTest
    @CsvSource({
        "9, .909, .0867",
        "13, .818, .1163",
        "18, .716, .1397",
        "23, .614, .1526",
        "31, .491, .1642",
        "34, .368, .1627",
        "48, .184, .1535"
    })
    void maintained(double week, double survival, double error) {
        KaplanMeier curve = KaplanMeier.of(group("aml_miller", "group", "Maintained", "weeks"));
        assertThat(curve.median()).isEqualTo(31);
        KaplanMeier.Step at = curve.steps().stream()
                .filter(step -> step.length() == week)
                .findFirst()
                .orElseThrow();
        assertThat(at.survival()).isCloseTo(survival, within(0.0005));
        assertThat(at.error()).isCloseTo(error, within(0.00006));
    }

    /** Of 24 that fail one by one, half have failed at the twelfth: 23/24 · 22/23 · … · 12/13 = 1/2. */
    @Test
    void halfHaveFailedAtTheTwelfthOfTwentyFour() {
        List<Life> lives = IntStream.rangeClosed(1, 24)
                .mapToObj(length -> new Life(length, Life.End.FAILED))
                .toList();
        assertThat(KaplanMeier.of(lives).median()).isEqualTo(12);
    }

    /** The same trial, the other group: the curve falls to nothing at its last time. */
    @ParameterizedTest
    @CsvSource({
        "5, .8333, .1076",
        "8, .6667, .1361",
        "12, .5833, .1423",
        "23, .4861, .1481",
        "27, .3889, .1470",
        "30, .2917, .1387",
        "33, .1944, .1219",
        "43, .0972, .0919"
    })
    void notMaintained(double week, double survival, double error) {
        KaplanMeier curve = KaplanMeier.of(group("aml_miller", "group", "Nonmaintained", "weeks"));
        assertThat(curve.median()).isEqualTo(23);
        assertThat(curve.survival(45)).isZero();
        KaplanMeier.Step at = curve.steps().stream()
                .filter(step -> step.length() == week)
                .findFirst()
                .orElseThrow();
        assertThat(at.survival()).isCloseTo(survival, within(0.00006));
        assertThat(at.error()).isCloseTo(error, within(0.00006));
    }

    /** Four small samples of a textbook and of a school of public health, to three decimals, at each distinct time. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "A: 1 1 0.875 0.75 0.75 0.75 0.75 0.5 0.25 0",
                "B: 0.9 0.788 0.675 0.675 0.54 0.405 0.27 0.27 0.27",
                "C: 1 0.875 0.75 0.75 0.6 0.6 0.6",
                "D: 0.95 0.95 0.897 0.844 0.844 0.844 0.844 0.844 0.844 0.844 0.76 0.676 0.676 0.676 0.676 0.507 0.507"
            })
    void textbookSamples(String published) {
        List<Life> lives = group("kaplan_meier_textbook", "sample", published.substring(0, 1), "time");
        KaplanMeier curve = KaplanMeier.of(lives);
        TreeSet<Double> times = new TreeSet<>(lives.stream().map(Life::length).toList());
        String[] expected = published.substring(3).split(" ");
        assertThat(times).hasSize(expected.length);
        int i = 0;
        for (double time : times) {
            assertThat(curve.survival(time))
                    .as("at " + time)
                    .isCloseTo(Double.parseDouble(expected[i++]), within(0.001));
        }
    }

    private static final LocalDate TODAY = LocalDate.parse("2026-11-25");

    private static ReplacementDue first(ReplacementDue.Known part) {
        return ReplacementDue.of(part, TODAY, 1).get(0);
    }

    private static ReplacementDue.Known visor(String made, String fitted, boolean serial, LifeFrom from) {
        return new ReplacementDue.Known(
                made == null ? null : LocalDate.parse(made),
                fitted == null ? null : LocalDate.parse(fitted),
                serial,
                null,
                24,
                from,
                0,
                null,
                0,
                null,
                0,
                null,
                null);
    }

    @Test
    void ageRunsFromManufactureUnlessTheFirstFitIsCertain() {
        assertThat(first(visor("2025-01-15", "2025-06-01", true, LifeFrom.MADE)).lastDay())
                .isEqualTo("2027-01-15");
        assertThat(first(visor("2025-01-15", "2025-06-01", true, LifeFrom.FIRST_FITTED))
                        .lastDay())
                .isEqualTo("2027-06-01");
        assertThat(first(visor("2025-01-15", "2025-06-01", false, LifeFrom.FIRST_FITTED)))
                .as("could be another one of the same sort")
                .isEqualTo(new ReplacementDue(Limit.AGE_SINCE_MADE, LocalDate.parse("2027-01-15"), null));
        assertThat(first(visor(null, "2025-06-01", false, LifeFrom.FIRST_FITTED))
                        .isOver(TODAY))
                .as("an age that nobody knows is over")
                .isTrue();
    }

    @Test
    void theLastDayIsStillGood() {
        ReplacementDue due = first(visor("2024-11-25", null, false, LifeFrom.MADE));
        assertThat(due.isOver(TODAY)).isFalse();
        assertThat(due.isOver(TODAY.plusDays(1))).isTrue();
    }

    /** 24 months of age leave until January, 10 of 60 wears at one a day are over on 5 December, the plan of 34 was over at 50. */
    @Test
    void theFirstLimitDecides() {
        ReplacementDue.Known hose = new ReplacementDue.Known(
                LocalDate.parse("2025-01-31"),
                null,
                false,
                LocalDate.parse("2027-12-31"),
                24,
                LifeFrom.MADE,
                50,
                60,
                0,
                null,
                4,
                100,
                34);
        assertThat(ReplacementDue.of(hose, TODAY, 1))
                .extracting(ReplacementDue::limit)
                .containsExactly(
                        Limit.PLANNED_WEARS, Limit.WEARS, Limit.AGE_SINCE_MADE, Limit.WASHES, Limit.SHELF_LIFE);
        assertThat(first(hose).left()).isEqualTo(-16);
        assertThat(first(hose).isOver(TODAY)).isTrue();
    }
}
