package org.hoodkeeper.calculation.trend;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How a set's corrected flow runs towards its minimum: when the robust line meets it, and when a single reading may lie below it
 * already. The set is to be served before the earlier of the two.
 *
 * @param robust the line that wild readings do not move
 * @param line the least-squares line, which gives the bound
 * @param step a sudden step, if there was one: then only what came after it is in the lines
 * @param robustMeets x where the robust line is at the minimum; none where it does not fall
 * @param lineMeets x where the least-squares line is at the minimum; none where it does not fall
 * @param boundMeets x where the lower prediction bound is at the minimum; none within the horizon
 * @param points that the lines rest on
 */
public record FlowTrend(
        TheilSen robust,
        LeastSquares line,
        @Nullable StepChange step,
        @Nullable Double robustMeets,
        @Nullable Double lineMeets,
        @Nullable Double boundMeets,
        List<Point> points) {

    /** One-sided: 95 % of single readings lie above the bound. */
    public static final double LEVEL = 0.95;

    public static final int FEWEST = 4;

    public FlowTrend {
        points = List.copyOf(points);
    }

    /**
     * @param points by x; at least {@link #FEWEST} at two or more places
     * @param minimum in the unit of y
     * @param leastStep the smallest step that means anything
     * @param horizon how far beyond the last point to look, in the unit of x
     * @return none where there are too few points since the last step
     */
    public static @Nullable FlowTrend of(List<Point> points, double minimum, double leastStep, double horizon) {
        StepChange step = StepChange.newest(points, leastStep);
        List<Point> since = new ArrayList<>(points);
        if (step != null) {
            since.removeIf(point -> point.x() < step.at());
        }
        if (since.size() < FEWEST
                || since.stream().mapToDouble(Point::x).distinct().count() < 2) {
            return null;
        }
        TheilSen robust = TheilSen.of(since);
        LeastSquares line = LeastSquares.of(since);
        double last = since.get(since.size() - 1).x();
        return new FlowTrend(
                robust,
                line,
                step,
                robust.slope() < 0 ? Double.valueOf((minimum - robust.throughMedians()) / robust.slope()) : null,
                line.slope() < 0 ? Double.valueOf((minimum - line.intercept()) / line.slope()) : null,
                boundMeets(line, minimum, since.get(0).x(), last + horizon),
                since);
    }

    /** The earlier of where the robust line and where the bound meet the minimum; none where neither does. */
    public @Nullable Double actBefore() {
        if (robustMeets == null) {
            return boundMeets;
        }
        return boundMeets == null ? robustMeets : Double.valueOf(Math.min(robustMeets, boundMeets));
    }

    /** The bound falls from its highest place on; a hundredth of the way at a time, then halved. */
    private static @Nullable Double boundMeets(LeastSquares line, double minimum, double from, double until) {
        double before = from;
        int steps = 400;
        for (int i = 1; i <= steps; i++) {
            double x = from + (until - from) * i / steps;
            if (line.lowerBound(before, LEVEL) >= minimum && line.lowerBound(x, LEVEL) < minimum) {
                return halved(line, minimum, before, x);
            }
            before = x;
        }
        return line.lowerBound(until, LEVEL) < minimum ? Double.valueOf(from) : null;
    }

    private static double halved(LeastSquares line, double minimum, double above, double below) {
        double low = above;
        double high = below;
        for (int i = 0; i < 60; i++) {
            double middle = (low + high) / 2;
            if (line.lowerBound(middle, LEVEL) >= minimum) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low;
    }
}
