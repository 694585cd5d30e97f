package org.hoodkeeper.calculation;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.stream.IntStream;
import org.hoodkeeper.kernel.Refused;

/**
 * The fit factors of one quantitative fit test, one for each exercise in order.
 *
 * <p>The grimace is never among them. In the US it is made but not counted (29 CFR 1910.134 App. A Part I.C.2(b)(8)(ii) and
 * C.3, from memory; that it is left out: 74 FR 3526, 21 Jan 2009). In the UK it is no measured exercise either (INDG479, from
 * memory); a list that carries one is judged on it like on any other, so leave it out before.
 *
 * @param exercises fit factors without unit, at least 4 and at most 20: the shortest accepted protocol has four exercises (84
 *     FR 50739). Each above 0 and at most 1,000,000
 */
public record FitFactors(List<BigDecimal> exercises) {

    private static final int FEWEST = 4;

    private static final int MOST = 20;

    public FitFactors {
        exercises = List.copyOf(exercises);
        if (exercises.size() < FEWEST || exercises.size() > MOST) {
            throw new Refused("calculation.fitTest.exercises", exercises.size(), FEWEST, MOST);
        }
        for (BigDecimal factor : exercises) {
            Figures.requirePositive(factor, "calculation.fitFactor.notPositive");
            Figures.requireWithin(factor, "0", "1000000", "calculation.fitFactor.range");
        }
    }

    /** How a rule set reads the exercises. */
    public enum Reading {
        /** The overall value alone decides: 29 CFR 1910.134(f)(7) and App. A. One exercise may lie below. */
        OVERALL,
        /** Every exercise must reach the level: INDG479, from memory. No mean is formed. */
        EVERY_EXERCISE
    }

    /**
     * @param passed whether the test is passed
     * @param overall the overall fit factor, rounded down to one decimal, also where it does not decide
     * @param below numbers of the exercises under the level, counted from 1; with {@link Reading#OVERALL} they tell, but do not
     *     decide
     */
    public record Judgement(boolean passed, BigDecimal overall, List<Integer> below) {}

    /** @param level least fit factor that passes, the level itself included: 100 half or filtering, 500 or 2,000 full */
    public Judgement judge(Reading reading, BigDecimal level) {
        Figures.requirePositive(level, "calculation.fitTest.level");
        List<Integer> below = IntStream.rangeClosed(1, exercises.size())
                .filter(number -> exercises.get(number - 1).compareTo(level) < 0)
                .boxed()
                .toList();
        return new Judgement(passes(reading, level), overall().setScale(1, RoundingMode.FLOOR), below);
    }

    /** Whether the test is passed; for callers that need no figures. */
    public boolean passes(Reading reading, BigDecimal level) {
        Figures.requirePositive(level, "calculation.fitTest.level");
        return switch (reading) {
            case OVERALL -> overall().compareTo(level) >= 0;
            case EVERY_EXERCISE -> everyExerciseReaches(level);
        };
    }

    private boolean everyExerciseReaches(BigDecimal level) {
        for (BigDecimal factor : exercises) {
            if (factor.compareTo(level) < 0) {
                return false;
            }
        }
        return true;
    }

    /** N ÷ Σ(1/ff), the harmonic mean, with 20 digits. */
    public BigDecimal overall() {
        BigDecimal penetration = BigDecimal.ZERO;
        for (BigDecimal factor : exercises) {
            penetration = penetration.add(BigDecimal.ONE.divide(factor, Figures.INSIDE), Figures.INSIDE);
        }
        return Figures.settle(BigDecimal.valueOf(exercises.size()).divide(penetration, Figures.INSIDE));
    }
}
