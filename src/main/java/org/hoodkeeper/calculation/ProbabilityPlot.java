package org.hoodkeeper.calculation;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * Where samples stand on log-probability paper: the value against the share of results that lie below it. Positions after
 * Helsel and Cohn (1988), which know several detection limits; without results below detection they are i ÷ (n + 1).
 */
public final class ProbabilityPlot {

    private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

    private ProbabilityPlot() {}

    /**
     * A detected sample.
     *
     * @param share of results below it, above 0 and below 1
     * @param score the normal score of the share, the straight axis of the paper
     */
    public record Point(Sample sample, double share, double score) {}

    /** From the lowest to the highest; those below detection have no point of their own, they push the others up. */
    public static List<Point> of(List<Sample> samples) {
        List<Double> steps = new ArrayList<>();
        steps.add(0.0);
        TreeSet<Double> limits = new TreeSet<>();
        samples.stream()
                .filter(one -> !one.isDetected())
                .forEach(one -> limits.add(one.value().doubleValue()));
        steps.addAll(limits);
        double above = 0;
        List<Point> points = new ArrayList<>();
        for (int j = steps.size() - 1; j >= 0; j--) {
            double from = steps.get(j);
            double until = j + 1 < steps.size() ? steps.get(j + 1) : Double.POSITIVE_INFINITY;
            List<Sample> within = samples.stream()
                    .filter(one -> one.isDetected() && value(one) >= from && value(one) < until)
                    .sorted(Comparator.comparing(Sample::value))
                    .toList();
            long lower = samples.stream()
                    .filter(one -> one.isDetected() ? value(one) < from : value(one) <= from)
                    .count();
            double exceeding =
                    within.isEmpty() ? above : above + (1 - above) * within.size() / (within.size() + (double) lower);
            for (int i = 0; i < within.size(); i++) {
                double share = 1 - exceeding + (i + 1) / (within.size() + 1.0) * (exceeding - above);
                points.add(new Point(within.get(i), share, NORMAL.inverseCumulativeProbability(share)));
            }
            above = exceeding;
        }
        points.sort(Comparator.comparingDouble(Point::share));
        return List.copyOf(points);
    }

    /** The normal score of a share, above 0 and below 1, for the marks of the axis. */
    public static double score(double share) {
        return NORMAL.inverseCumulativeProbability(share);
    }

    private static double value(Sample sample) {
        return sample.value().doubleValue();
    }
}
