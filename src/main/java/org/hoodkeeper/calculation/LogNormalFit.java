package org.hoodkeeper.calculation;

import java.util.List;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * Mean and standard deviation of the natural logarithms. With results below detection by maximum likelihood (left-censored
 * normal), found by expectation and maximisation, which climbs for every start and stops when nothing moves by 1e-12.
 */
record LogNormalFit(double mean, double deviation) {

    private static final int ROUNDS = 50_000;

    private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

    static LogNormalFit of(List<Sample> samples) {
        int n = samples.size();
        LogNormalFit fit = substituted(samples);
        boolean complete = samples.stream().allMatch(Sample::isDetected);
        for (int round = 0; !complete && round < ROUNDS && fit.deviation > 0; round++) {
            LogNormalFit next = step(samples, fit);
            boolean still = Math.abs(next.mean - fit.mean) + Math.abs(next.deviation - fit.deviation) < 1e-12;
            fit = next;
            if (still) {
                break;
            }
        }
        return new LogNormalFit(fit.mean, fit.deviation * Math.sqrt(n / (n - 1.0)));
    }

    private static LogNormalFit substituted(List<Sample> samples) {
        double mean = samples.stream().mapToDouble(Sample::ln).average().orElseThrow();
        double squares = samples.stream()
                .mapToDouble(one -> (one.ln() - mean) * (one.ln() - mean))
                .sum();
        return new LogNormalFit(mean, Math.sqrt(squares / samples.size()));
    }

    /** A value known only to lie below c counts with the mean and the mean square of the fitted values below c. */
    private static LogNormalFit step(List<Sample> samples, LogNormalFit fit) {
        double sum = 0;
        double squares = 0;
        for (Sample sample : samples) {
            double x = sample.ln();
            if (sample.isDetected()) {
                sum += x;
                squares += x * x;
                continue;
            }
            double z = (x - fit.mean) / fit.deviation;
            double ratio = NORMAL.density(z) / NORMAL.cumulativeProbability(z);
            double expected = fit.mean - fit.deviation * ratio;
            double variance = fit.deviation * fit.deviation * (1 - z * ratio - ratio * ratio);
            sum += expected;
            squares += expected * expected + variance;
        }
        double mean = sum / samples.size();
        return new LogNormalFit(mean, Math.sqrt(Math.max(0, squares / samples.size() - mean * mean)));
    }
}
