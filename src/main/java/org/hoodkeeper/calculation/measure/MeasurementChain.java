package org.hoodkeeper.calculation.measure;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.hoodkeeper.calculation.AirCondition;
import org.hoodkeeper.calculation.FlowIndicator;
import org.hoodkeeper.calculation.FlowReading;
import org.hoodkeeper.calculation.MinimumFlow;
import org.hoodkeeper.kernel.RecordId;
import org.jspecify.annotations.Nullable;

/**
 * A result counts if the instrument was valid when it was taken and was still in tolerance at its next calibration (ISO/IEC 17025
 * and ISO 10012 practice, from memory). What does not count is judged again with the error that was found, which tells how bad
 * it may have been; it is never passed again by that: only a new measurement passes.
 */
public final class MeasurementChain {

    private MeasurementChain() {}

    /**
     * @param left the indicator as it left the calibration
     * @param passed whether it left fit for use
     * @param asFoundInTolerance whether it came in within tolerance
     * @param asFoundShownForOne what it showed for a true 1 when it came in; none where not measured
     * @param until end of its validity, excluded
     */
    public record Calibrated(
            Instant at,
            FlowIndicator left,
            boolean passed,
            boolean asFoundInTolerance,
            @Nullable BigDecimal asFoundShownForOne,
            Instant until) {}

    /** @param minimum of the set that was measured; {@code air} at the reading */
    public record Result(RecordId record, Instant at, BigDecimal shown, AirCondition air, MinimumFlow minimum) {}

    public enum Standing {
        COUNTS,
        /** Before any calibration, or after one that it failed. */
        NOT_CALIBRATED,
        LAPSED,
        /** It was on hold when it measured: dropped, suspected, put aside. */
        HELD,
        /** The next calibration found it out of tolerance. */
        FOUND_WRONG
    }

    /**
     * @param standing whether it counts
     * @param asJudged with the calibration of the day; none where there was none
     * @param withError again with the error that was found, the worse of both ends; none where nothing was found wrong or the
     *     error was not measured
     */
    public record Rejudged(
            Result result,
            Standing standing,
            FlowReading.@Nullable Judgement asJudged,
            FlowReading.@Nullable Judgement withError) {

        /** Passed on the day, and would not have with the error: people may have worn too little air. */
        public boolean turned() {
            return asJudged != null && asJudged.passed() && withError != null && !withError.passed();
        }
    }

    /** Every result of an instrument, oldest first. @param calibrations in any order */
    public static List<Rejudged> of(List<Calibrated> calibrations, List<Result> results) {
        List<Calibrated> sorted = new ArrayList<>(calibrations);
        sorted.sort(Comparator.comparing(Calibrated::at));
        List<Rejudged> rejudged = new ArrayList<>();
        for (Result result : results) {
            rejudged.add(one(sorted, result));
        }
        rejudged.sort(Comparator.comparing(one -> one.result().at()));
        return rejudged;
    }

    private static Rejudged one(List<Calibrated> oldestFirst, Result result) {
        Calibrated last = null;
        Calibrated next = null;
        for (Calibrated calibrated : oldestFirst) {
            if (!calibrated.at().isAfter(result.at())) {
                last = calibrated;
            } else if (next == null) {
                next = calibrated;
            }
        }
        if (last == null || !last.passed()) {
            return new Rejudged(result, Standing.NOT_CALIBRATED, null, null);
        }
        FlowReading reading = new FlowReading(result.shown(), result.air());
        FlowReading.Judgement asJudged = reading.judge(last.left(), result.minimum());
        if (!result.at().isBefore(last.until())) {
            return new Rejudged(result, Standing.LAPSED, asJudged, null);
        }
        if (next == null || next.asFoundInTolerance()) {
            return new Rejudged(result, Standing.COUNTS, asJudged, null);
        }
        BigDecimal found = next.asFoundShownForOne();
        FlowReading.Judgement withError = found == null
                ? null
                : reading.judge(
                        new FlowIndicator(
                                last.left().calibratedAt(),
                                found.max(last.left().shownForOne()),
                                last.left().uncertainty()),
                        result.minimum());
        return new Rejudged(result, Standing.FOUND_WRONG, asJudged, withError);
    }
}
