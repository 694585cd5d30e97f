package org.hoodkeeper.calculation;

import java.util.List;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.hoodkeeper.kernel.Refused;

/**
 * How well the logarithms lie on a normal distribution: the W of Shapiro and Wilk, with Royston's approximation (Applied
 * Statistics algorithm AS R94, 1995). A small p says that the samples do not look like one lognormal group: two tasks thrown
 * together, or an odd day. It needs complete samples: with results below detection there is no such test.
 *
 * @param w 0 to 1, 1 where they lie on the line
 * @param p how often lognormal samples would look as uneven as these, or more so
 */
public record NormalityTest(double w, double p) {

    private static final double[] C1 = {0, 0.221157, -0.147981, -2.07119, 4.434685, -2.706056};
    private static final double[] C2 = {0, 0.042981, -0.293762, -1.752461, 5.682633, -3.582633};
    private static final double[] C3 = {0.544, -0.39978, 0.025054, -6.714e-4};
    private static final double[] C4 = {1.3822, -0.77857, 0.062767, -0.0020322};
    private static final double[] C5 = {-1.5861, -0.31082, -0.083751, 0.0038915};
    private static final double[] C6 = {-0.4803, -0.082676, 0.0030302};
    private static final double[] G = {-2.273, 0.459};

    private static final int FEWEST = 3;
    private static final int MOST = 5_000;
    private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

    /** Below this the fit is called doubtful. Common practice, no source. */
    public boolean isDoubtful() {
        return p < 0.05;
    }

    /**
     * @throws Refused {@code calculation.samples.count} below 3 or above 5 000; {@code calculation.samples.censored} where any is
     *     below detection; {@code calculation.samples.same} when all are the same
     */
    public static NormalityTest ofLogarithms(List<Sample> samples) {
        if (samples.stream().anyMatch(one -> !one.isDetected())) {
            throw new Refused("calculation.samples.censored");
        }
        return of(samples.stream().mapToDouble(Sample::ln).toArray());
    }

    static NormalityTest of(double... values) {
        int n = values.length;
        if (n < FEWEST || n > MOST) {
            throw new Refused("calculation.samples.count", n, FEWEST, MOST);
        }
        double[] sorted = values.clone();
        java.util.Arrays.sort(sorted);
        if (sorted[n - 1] - sorted[0] < 1e-12) {
            throw new Refused("calculation.samples.same", n);
        }
        double w = w(sorted, weights(n));
        return new NormalityTest(w, p(w, n));
    }

    /** The weights of the largest, second largest … value; those of the smallest are the same with the other sign. */
    private static double[] weights(int n) {
        int half = n / 2;
        double[] m = new double[half];
        double squares = 0;
        for (int i = 0; i < half; i++) {
            m[i] = -NORMAL.inverseCumulativeProbability((i + 1 - 0.375) / (n + 0.25));
            squares += 2 * m[i] * m[i];
        }
        double[] a = new double[half];
        if (n == FEWEST) {
            a[0] = Math.sqrt(0.5);
            return a;
        }
        double inverse = 1 / Math.sqrt(n);
        a[0] = polynomial(C1, inverse) + m[0] / Math.sqrt(squares);
        int given = 1;
        double used = 2 * m[0] * m[0];
        double left = 1 - 2 * a[0] * a[0];
        if (n > 5) {
            a[1] = polynomial(C2, inverse) + m[1] / Math.sqrt(squares);
            given = 2;
            used += 2 * m[1] * m[1];
            left -= 2 * a[1] * a[1];
        }
        double scale = Math.sqrt((squares - used) / left);
        for (int i = given; i < half; i++) {
            a[i] = m[i] / scale;
        }
        return a;
    }

    private static double w(double[] sorted, double[] a) {
        int n = sorted.length;
        double mean = java.util.Arrays.stream(sorted).average().orElseThrow();
        double squares = 0;
        for (double x : sorted) {
            squares += (x - mean) * (x - mean);
        }
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += a[i] * (sorted[n - 1 - i] - sorted[i]);
        }
        return Math.min(1, sum * sum / squares);
    }

    private static double p(double w, int n) {
        if (n == FEWEST) {
            return Math.max(0, 6 / Math.PI * (Math.asin(Math.sqrt(w)) - Math.asin(Math.sqrt(0.75))));
        }
        double y = Math.log(1 - w);
        double mean;
        double deviation;
        if (n <= 11) {
            double gamma = polynomial(G, n);
            if (y >= gamma) {
                return 0;
            }
            y = -Math.log(gamma - y);
            mean = polynomial(C3, n);
            deviation = Math.exp(polynomial(C4, n));
        } else {
            double ln = Math.log(n);
            mean = polynomial(C5, ln);
            deviation = Math.exp(polynomial(C6, ln));
        }
        return NORMAL.survivalProbability((y - mean) / deviation);
    }

    private static double polynomial(double[] coefficients, double x) {
        double value = 0;
        for (int i = coefficients.length - 1; i >= 0; i--) {
            value = value * x + coefficients[i];
        }
        return value;
    }
}
