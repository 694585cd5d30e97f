package org.hoodkeeper.calculation.trend;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A sudden step in a row of values: a blocked filter or a split hose, not ageing. Between neighbours the change, less the usual
 * one, is compared with the usual spread of changes (median absolute deviation × 1.4826); beyond {@value #TIMES} of them, and
 * more than an indicator can err by chance, it is a step. Common practice for robust outliers; no published source for the
 * figures.
 *
 * @param at x of the first value after the step
 * @param size how far it went beyond the usual change, in the unit of y; below 0 for a drop
 */
public record StepChange(double at, double size) {

    private static final double TIMES = 4;
    private static final double NORMAL = 1.4826;

    /**
     * The newest step, or none; none with fewer than five points.
     *
     * @param points by x, without gaps of other causes
     * @param least the smallest step that means anything, in the unit of y, 0 or more
     */
    public static @Nullable StepChange newest(List<Point> points, double least) {
        if (points.size() < 5) {
            return null;
        }
        double[] changes = new double[points.size() - 1];
        for (int i = 0; i < changes.length; i++) {
            changes[i] = points.get(i + 1).y() - points.get(i).y();
        }
        double usual = Spread.median(changes);
        double[] away = new double[changes.length];
        for (int i = 0; i < changes.length; i++) {
            away[i] = Math.abs(changes[i] - usual);
        }
        double bound = Math.max(least, TIMES * NORMAL * Spread.median(away));
        for (int i = changes.length - 1; i >= 0; i--) {
            if (away[i] > bound) {
                return new StepChange(points.get(i + 1).x(), changes[i] - usual);
            }
        }
        return null;
    }
}
