package org.hoodkeeper.calculation.life;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * Share of parts still good at each length, without assuming any shape (Kaplan and Meier 1958), with Greenwood's standard error.
 * A part that was still good at the length of a failure counts as having been at risk there.
 *
 * @param steps by length; one for each length at which a part failed
 */
public record KaplanMeier(List<Step> steps) {

    public KaplanMeier {
        steps = List.copyOf(steps);
    }

    /**
     * @param atRisk parts that had reached the length
     * @param failed of them, those that failed there
     * @param survival share still good from that length on
     * @param error standard error of it; 0 where none is left
     */
    public record Step(double length, int atRisk, int failed, double survival, double error) {}

    public static KaplanMeier of(List<Life> lives) {
        TreeMap<Double, int[]> lengths = new TreeMap<>();
        for (Life life : lives) {
            int[] counts = lengths.computeIfAbsent(life.length(), any -> new int[2]);
            counts[life.failed() ? 0 : 1]++;
        }
        List<Step> steps = new ArrayList<>();
        int atRisk = lives.size();
        double survival = 1;
        double greenwood = 0;
        for (var at : lengths.entrySet()) {
            int failed = at.getValue()[0];
            if (failed > 0) {
                survival *= 1 - (double) failed / atRisk;
                greenwood += atRisk == failed ? 0 : (double) failed / ((double) atRisk * (atRisk - failed));
                steps.add(new Step(at.getKey(), atRisk, failed, survival, survival * Math.sqrt(greenwood)));
            }
            atRisk -= failed + at.getValue()[1];
        }
        return new KaplanMeier(steps);
    }

    /** Share still good just after that length. */
    public double survival(double length) {
        double survival = 1;
        for (Step step : steps) {
            if (step.length() > length) {
                break;
            }
            survival = step.survival();
        }
        return survival;
    }

    /** A product of fractions that is a half may come out a few last digits above it. */
    private static final double HALF = 0.5 + 1e-9;

    /** The length at which half have failed; none where fewer than half did. */
    public @Nullable Double median() {
        for (Step step : steps) {
            if (step.survival() <= HALF) {
                return step.length();
            }
        }
        return null;
    }
}
