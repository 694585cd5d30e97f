package org.hoodkeeper.calculation;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.List;
import org.hoodkeeper.kernel.Refused;

/**
 * What samples of a group that is exposed alike say of its exposure, taken as lognormal.
 *
 * <p>Results below detection: the logarithms are fitted by maximum likelihood as left-censored normal values (A. C. Cohen, 1959),
 * each at its own detection limit, and the deviation is widened by √(n ÷ (n − 1)), so that without such results it is the usual
 * one. The factor of the tolerance limit then counts the detected results alone, which is the stricter; common practice, no
 * source. The arithmetic mean takes a detection limit as if it had been measured, which is never too low.
 *
 * @param count how many results
 * @param below how many of them below detection
 * @param geometricMean exp(mean of the logarithms)
 * @param geometricDeviation exp(standard deviation of the logarithms), at least 1; no unit
 * @param mean arithmetic mean
 * @param p95 point estimate of the 95th percentile
 * @param utl70 upper tolerance limit of the 95th percentile at 70 % confidence: EN 689:2018
 * @param utl95 the same at 95 % confidence
 * @param highest the highest result; a detection limit counts as a result
 */
public record ExposureStatistics(
        int count,
        int below,
        double geometricMean,
        double geometricDeviation,
        double mean,
        double p95,
        double utl70,
        double utl95,
        double highest) {

    /** EN 689:2018: the test needs six results. */
    public static final int LEAST = 6;

    /** With fewer detected ones the deviation is a guess. Common practice, no source. */
    public static final int LEAST_DETECTED = 3;

    private static final double Z95 = 1.6448536269514722;

    /** An exposure for people and records: three digits, never rounded down, so that no air looks better than it is. */
    private static final MathContext UP = new MathContext(3, RoundingMode.CEILING);

    /** Which of the figures decides; the words are the site decision's. */
    public enum Statistic {
        UTL95_70,
        UTL95_95,
        P95,
        MEAN
    }

    /**
     * @throws Refused {@code calculation.samples.few} below {@link #LEAST}; {@code calculation.samples.detected} when fewer than
     *     {@link #LEAST_DETECTED}, or less than half, were detected; {@code calculation.samples.same} when all logarithms are the
     *     same, which is no sample of anything that varies
     */
    public static ExposureStatistics of(List<Sample> samples) {
        if (samples.size() < LEAST) {
            throw new Refused("calculation.samples.few", samples.size(), LEAST);
        }
        int detected = (int) samples.stream().filter(Sample::isDetected).count();
        if (detected < LEAST_DETECTED || 2 * detected < samples.size()) {
            throw new Refused("calculation.samples.detected", detected, samples.size());
        }
        LogNormalFit fit = LogNormalFit.of(samples);
        if (fit.deviation() < 1e-9) {
            throw new Refused("calculation.samples.same", samples.size());
        }
        return new ExposureStatistics(
                samples.size(),
                samples.size() - detected,
                Math.exp(fit.mean()),
                Math.exp(fit.deviation()),
                samples.stream()
                        .mapToDouble(one -> one.value().doubleValue())
                        .average()
                        .orElseThrow(),
                Math.exp(fit.mean() + Z95 * fit.deviation()),
                Math.exp(fit.mean()
                        + ToleranceFactor.of(detected, ToleranceFactor.Confidence.SEVENTY) * fit.deviation()),
                Math.exp(fit.mean()
                        + ToleranceFactor.of(detected, ToleranceFactor.Confidence.NINETY_FIVE) * fit.deviation()),
                samples.stream()
                        .mapToDouble(one -> one.value().doubleValue())
                        .max()
                        .orElseThrow());
    }

    /** The figure that decides, three digits, rounded up. */
    public BigDecimal deciding(Statistic statistic) {
        double value =
                switch (statistic) {
                    case UTL95_70 -> utl70;
                    case UTL95_95 -> utl95;
                    case P95 -> p95;
                    case MEAN -> mean;
                };
        return shown(value);
    }

    /** Three digits, rounded up. A last digit that only binary arithmetic made is cut first. */
    public static BigDecimal shown(double value) {
        BigDecimal settled = new BigDecimal(value, new MathContext(12)).round(UP);
        return settled.scale() < 0 ? settled.setScale(0) : settled;
    }
}
