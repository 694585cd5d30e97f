package org.hoodkeeper.calculation.trend;

import java.util.List;
import org.apache.commons.statistics.distribution.TDistribution;
import org.hoodkeeper.kernel.Refused;

/**
 * The straight line with the least squares of what it misses, and how sure it is.
 *
 * @param n number of points, at least 3
 * @param slope per unit of x; {@code slopeDeviation} its standard deviation
 * @param intercept at x = 0; {@code interceptDeviation} its standard deviation
 * @param residualDeviation with n − 2 degrees of freedom, 0 for points on a line
 * @param determination R², 1 for points on a line
 * @param meanX mean of x
 * @param squaresX sum of the squared distances from it
 */
public record LeastSquares(
        int n,
        double slope,
        double slopeDeviation,
        double intercept,
        double interceptDeviation,
        double residualDeviation,
        double determination,
        double meanX,
        double squaresX) {

    /** @throws Refused {@code calculation.trend.tooFew} below three points, {@code calculation.trend.oneX} when all lie at one x */
    public static LeastSquares of(List<Point> points) {
        int n = points.size();
        if (n < 3) {
            throw new Refused("calculation.trend.tooFew", n, 3);
        }
        double meanX = Spread.mean(points.stream().mapToDouble(Point::x).toArray());
        double meanY = Spread.mean(points.stream().mapToDouble(Point::y).toArray());
        double xx = 0;
        double xy = 0;
        double yy = 0;
        for (Point point : points) {
            xx += (point.x() - meanX) * (point.x() - meanX);
            xy += (point.x() - meanX) * (point.y() - meanY);
            yy += (point.y() - meanY) * (point.y() - meanY);
        }
        if (xx == 0) {
            throw new Refused("calculation.trend.oneX");
        }
        double slope = xy / xx;
        double intercept = meanY - slope * meanX;
        double missed = 0;
        for (Point point : points) {
            double residual = point.y() - meanY - slope * (point.x() - meanX);
            missed += residual * residual;
        }
        double deviation = Math.sqrt(missed / (n - 2));
        return new LeastSquares(
                n,
                slope,
                deviation / Math.sqrt(xx),
                intercept,
                deviation * Math.sqrt(1.0 / n + meanX * meanX / xx),
                deviation,
                yy == 0 ? 1 : 1 - missed / yy,
                meanX,
                xx);
    }

    public double at(double x) {
        return intercept + slope * x;
    }

    /**
     * One-sided lower prediction bound: the next single value at x lies above it with that probability, if the line holds and
     * the residuals are normal and independent.
     *
     * @param level for instance 0.95
     */
    public double lowerBound(double x, double level) {
        double t = TDistribution.of(n - 2).inverseCumulativeProbability(level);
        double distance = x - meanX;
        return at(x) - t * residualDeviation * Math.sqrt(1 + 1.0 / n + distance * distance / squaresX);
    }
}
