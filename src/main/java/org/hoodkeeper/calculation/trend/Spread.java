package org.hoodkeeper.calculation.trend;

import java.util.Arrays;
import org.hoodkeeper.kernel.Refused;

/** Mean, standard deviation and lag-1 autocorrelation, in two passes with what the first pass left over put back. */
public final class Spread {

    private Spread() {}

    /** @param values at least one */
    public static double mean(double... values) {
        require(values, 1);
        double first = Arrays.stream(values).sum() / values.length;
        double left = 0;
        for (double value : values) {
            left += value - first;
        }
        return first + left / values.length;
    }

    /** With n − 1. @param values at least two */
    public static double deviation(double... values) {
        require(values, 2);
        double mean = mean(values);
        double squares = 0;
        double left = 0;
        for (double value : values) {
            squares += (value - mean) * (value - mean);
            left += value - mean;
        }
        return Math.sqrt((squares - left * left / values.length) / (values.length - 1));
    }

    /** How alike neighbours are, −1 to 1; near 0 for independent values. @param values at least two, not all equal */
    public static double autocorrelation(double... values) {
        require(values, 2);
        double mean = mean(values);
        double squares = 0;
        double neighbours = 0;
        for (int i = 0; i < values.length; i++) {
            squares += (values[i] - mean) * (values[i] - mean);
            if (i > 0) {
                neighbours += (values[i] - mean) * (values[i - 1] - mean);
            }
        }
        if (squares == 0) {
            throw new Refused("calculation.trend.flat");
        }
        return neighbours / squares;
    }

    /** The middle value, or the mean of the two in the middle. @param values at least one */
    public static double median(double... values) {
        require(values, 1);
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        int half = sorted.length / 2;
        return sorted.length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
    }

    private static void require(double[] values, int least) {
        if (values.length < least) {
            throw new Refused("calculation.trend.tooFew", values.length, least);
        }
    }
}
