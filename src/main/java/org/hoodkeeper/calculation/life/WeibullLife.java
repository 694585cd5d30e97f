package org.hoodkeeper.calculation.life;

import java.util.List;
import org.apache.commons.statistics.distribution.WeibullDistribution;
import org.hoodkeeper.kernel.Refused;

/**
 * Life of a sort of part as a Weibull distribution, by maximum likelihood with lives that have not ended yet.
 *
 * @param shape above 1: they wear out; near 1: they fail at any age; below 1: bad ones fail first
 * @param scale length that 63.2 % do not reach, in the unit of the lives
 * @param failures how many of the lives had ended
 * @param logLikelihood of the lives under these figures
 */
public record WeibullLife(double shape, double scale, int failures, double logLikelihood) {

    /** What the shape advises. */
    public enum Advice {
        /** Fewer than {@link #FEWEST} failures: nothing to say yet. */
        TOO_FEW,
        /** A planned change beats waiting for the failure. */
        CHANGE_BY_AGE,
        /** Age tells nothing: inspect, do not schedule. */
        INSPECT,
        /** New ones fail: look at the lot and at how it is fitted. */
        LOOK_AT_THE_LOT
    }

    public static final int FEWEST = 4;

    /** Variance of ln(shape) is about 0.608 ÷ failures (asymptotic, complete samples; from memory), one-sided 95 %. */
    private static final double LOG_VARIANCE = 0.608;

    private static final double ONE_SIDED = 1.645;

    /**
     * @throws Refused {@code calculation.life.noFailure} without a failure; {@code calculation.life.oneLength} when all ended at
     *     one and the same length, which no shape fits
     */
    public static WeibullLife of(List<Life> lives) {
        int failures = (int) lives.stream().filter(Life::failed).count();
        if (failures == 0) {
            throw new Refused("calculation.life.noFailure");
        }
        if (lives.stream().mapToDouble(Life::length).distinct().count() < 2) {
            throw new Refused("calculation.life.oneLength");
        }
        double longest = lives.stream().mapToDouble(Life::length).max().orElseThrow();
        double low = 1e-3;
        double high = 1;
        while (profile(lives, high, longest) < 0 && high < 1e4) {
            high *= 2;
        }
        for (int i = 0; i < 200; i++) {
            double middle = (low + high) / 2;
            if (profile(lives, middle, longest) < 0) {
                low = middle;
            } else {
                high = middle;
            }
        }
        double shape = (low + high) / 2;
        double powers = 0;
        for (Life life : lives) {
            powers += Math.pow(life.length() / longest, shape);
        }
        double scale = longest * Math.pow(powers / failures, 1 / shape);
        return new WeibullLife(shape, scale, failures, logLikelihood(lives, shape, scale));
    }

    /** Rises with the shape and is 0 at the best one. Lengths over the longest, so that no power overflows. */
    private static double profile(List<Life> lives, double shape, double longest) {
        double powers = 0;
        double weighted = 0;
        double logs = 0;
        int failures = 0;
        for (Life life : lives) {
            double relative = life.length() / longest;
            double power = Math.pow(relative, shape);
            powers += power;
            weighted += power * Math.log(relative);
            if (life.failed()) {
                logs += Math.log(relative);
                failures++;
            }
        }
        return weighted / powers - 1 / shape - logs / failures;
    }

    private static double logLikelihood(List<Life> lives, double shape, double scale) {
        double sum = 0;
        for (Life life : lives) {
            double relative = life.length() / scale;
            if (life.failed()) {
                sum += Math.log(shape / scale) + (shape - 1) * Math.log(relative);
            }
            sum -= Math.pow(relative, shape);
        }
        return sum;
    }

    /** Share that is still good at a length. */
    public double survival(double length) {
        return Math.exp(-Math.pow(length / scale, shape));
    }

    /** Length by which that percentage has failed: B10 for 10. @param percent above 0, below 100 */
    public double b(double percent) {
        if (!(percent > 0 && percent < 100)) {
            throw new Refused("calculation.life.percent", percent);
        }
        return scale * Math.pow(-Math.log(1 - percent / 100), 1 / shape);
    }

    public double mean() {
        return WeibullDistribution.of(shape, scale).getMean();
    }

    public double deviation() {
        return Math.sqrt(WeibullDistribution.of(shape, scale).getVariance());
    }

    /** Says nothing that the number of failures does not carry: the shape must differ from 1 with 95 % confidence. */
    public Advice advice() {
        if (failures < FEWEST) {
            return Advice.TOO_FEW;
        }
        double factor = Math.exp(ONE_SIDED * Math.sqrt(LOG_VARIANCE / failures));
        if (shape / factor > 1) {
            return Advice.CHANGE_BY_AGE;
        }
        return shape * factor < 1 ? Advice.LOOK_AT_THE_LOT : Advice.INSPECT;
    }
}
