package org.hoodkeeper.calculation;

import java.math.BigDecimal;
import java.util.List;
import org.hoodkeeper.kernel.Refused;

/**
 * Do the results comply with the limit, as EN 689:2018 asks? With three to five results the preliminary test; from six on the
 * statistical one. This says whether the air itself complies; whether a device is enough for it is {@link Adequacy}.
 *
 * @param kind which of the two
 * @param result what it says
 * @param count number of results
 * @param margin (ln limit − mean of the logarithms) ÷ deviation, the test's U; 0 where the preliminary test was made
 * @param needed what U must reach, U_R of Annex F; 0 where the preliminary test was made
 */
public record ComplianceTest(TestKind kind, Result result, int count, double margin, double needed) {

    public enum TestKind {
        PRELIMINARY,
        STATISTICAL
    }

    public enum Result {
        COMPLIANT,
        NOT_COMPLIANT,
        /** The preliminary test cannot tell: six results are needed. */
        MORE_SAMPLES
    }

    /** Share of the limit below which all of 3, 4 or 5 results must lie: EN 689:2018, 5.5.2 (from memory, high). */
    private static final List<BigDecimal> SHARES =
            List.of(new BigDecimal("0.1"), new BigDecimal("0.15"), new BigDecimal("0.2"));

    private static final int FEWEST = 3;

    /**
     * @param samples a result below detection counts with its detection limit in the preliminary test
     * @param limit above 0
     * @throws Refused {@code calculation.samples.preliminary} below three; as {@link ExposureStatistics#of} from six on
     */
    public static ComplianceTest of(List<Sample> samples, BigDecimal limit) {
        Figures.requirePositive(limit, "calculation.limit.notPositive");
        if (samples.size() < FEWEST) {
            throw new Refused("calculation.samples.preliminary", samples.size(), FEWEST);
        }
        return samples.size() < ExposureStatistics.LEAST ? preliminary(samples, limit) : statistical(samples, limit);
    }

    private static ComplianceTest preliminary(List<Sample> samples, BigDecimal limit) {
        BigDecimal share = limit.multiply(SHARES.get(samples.size() - FEWEST));
        boolean over =
                samples.stream().anyMatch(one -> one.isDetected() && one.value().compareTo(limit) > 0);
        boolean below = samples.stream().allMatch(one -> one.value().compareTo(share) < 0);
        Result result = over ? Result.NOT_COMPLIANT : below ? Result.COMPLIANT : Result.MORE_SAMPLES;
        return new ComplianceTest(TestKind.PRELIMINARY, result, samples.size(), 0, 0);
    }

    private static ComplianceTest statistical(List<Sample> samples, BigDecimal limit) {
        ExposureStatistics statistics = ExposureStatistics.of(samples);
        double u = (Math.log(limit.doubleValue()) - Math.log(statistics.geometricMean()))
                / Math.log(statistics.geometricDeviation());
        double needed = ToleranceFactor.of(statistics.count() - statistics.below(), ToleranceFactor.Confidence.SEVENTY);
        return new ComplianceTest(
                TestKind.STATISTICAL, u >= needed ? Result.COMPLIANT : Result.NOT_COMPLIANT, samples.size(), u, needed);
    }
}
