package org.hoodkeeper.calculation.trend;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.hoodkeeper.kernel.Refused;

/**
 * The median of the slopes between all pairs of points (Theil 1950; Sen, J. Amer. Statist. Assoc. 63 (1968) 1379): up to 29 % of
 * wild readings do not move it much.
 *
 * @param slope per unit of x
 * @param throughMedians intercept of the line through the medians of x and y; this one is used
 * @param ofResiduals the other convention: the median of y − slope · x
 */
public record TheilSen(double slope, double throughMedians, double ofResiduals, List<Double> slopes, List<Double> ys) {

    public TheilSen {
        slopes = List.copyOf(slopes);
        ys = List.copyOf(ys);
    }

    /** @throws Refused {@code calculation.trend.tooFew} below two points, {@code calculation.trend.oneX} when all lie at one x */
    public static TheilSen of(List<Point> points) {
        if (points.size() < 2) {
            throw new Refused("calculation.trend.tooFew", points.size(), 2);
        }
        List<Double> slopes = new ArrayList<>();
        for (int i = 0; i < points.size(); i++) {
            for (int j = i + 1; j < points.size(); j++) {
                double run = points.get(j).x() - points.get(i).x();
                if (run != 0) {
                    slopes.add((points.get(j).y() - points.get(i).y()) / run);
                }
            }
        }
        if (slopes.isEmpty()) {
            throw new Refused("calculation.trend.oneX");
        }
        slopes.sort(null);
        double slope =
                Spread.median(slopes.stream().mapToDouble(Double::doubleValue).toArray());
        double[] xs = points.stream().mapToDouble(Point::x).toArray();
        double[] ys = points.stream().mapToDouble(Point::y).toArray();
        double[] residuals =
                points.stream().mapToDouble(one -> one.y() - slope * one.x()).toArray();
        return new TheilSen(
                slope,
                Spread.median(ys) - slope * Spread.median(xs),
                Spread.median(residuals),
                slopes,
                Arrays.stream(ys).boxed().toList());
    }

    public double at(double x) {
        return throughMedians + slope * x;
    }

    /** @param lower and upper end of an interval */
    public record Range(double lower, double upper) {}

    /** Confidence interval of the slope by Kendall's statistic with its normal approximation, ties in y counted. @param level for instance 0.93 */
    public Range interval(double level) {
        int pairs = slopes.size();
        double variance = variance();
        double z = NormalDistribution.of(0, 1).inverseCumulativeProbability((1 + level) / 2);
        double half = z * Math.sqrt(variance);
        int upper = Math.min((int) Math.rint((pairs + half) / 2), pairs - 1);
        int lower = Math.max((int) Math.rint((pairs - half) / 2) - 1, 0);
        return new Range(slopes.get(lower), slopes.get(upper));
    }

    private double variance() {
        int n = ys.size();
        Map<Double, Integer> ties = new HashMap<>();
        ys.forEach(y -> ties.merge(y, 1, Integer::sum));
        double sum = n * (n - 1.0) * (2.0 * n + 5);
        for (int tied : ties.values()) {
            sum -= tied * (tied - 1.0) * (2.0 * tied + 5);
        }
        return sum / 18;
    }
}
