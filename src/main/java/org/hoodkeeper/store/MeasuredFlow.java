package org.hoodkeeper.store;

import java.math.BigDecimal;
import java.time.Instant;
import org.hoodkeeper.assessment.FlowYardstick;
import org.hoodkeeper.calculation.FlowReading;
import org.hoodkeeper.calculation.measure.MeasurementChain;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.ledger.History;
import org.jspecify.annotations.Nullable;

/**
 * One flow measurement of a set with all that it rests on: judged with the yardstick of its day as known now.
 *
 * @param version the flow check, examination or pre-use check that measured it
 * @param shown what the indicator showed, L/min
 * @param celsius air at the indicator, degrees Celsius; none where not measured: the calibration's own counts
 * @param hectopascals absolute pressure there; none where not measured
 * @param model what the maker said of the model on that day; none where nothing was on record
 * @param calibration the last one before the reading, whether it makes it count or not; none before any
 * @param yardstick what it is held against; none without calibration or minimum
 * @param standing whether the instrument makes it count
 * @param judged with the calibration of the day; none where there is no yardstick
 * @param withError again with the error that the next calibration found; it tells how bad it may have been and never passes anything
 */
public record MeasuredFlow(
        History.Version version,
        SetId set,
        BigDecimal shown,
        InstrumentId instrument,
        @Nullable BigDecimal celsius,
        @Nullable BigDecimal hectopascals,
        @Nullable ModelData model,
        @Nullable Told<Calibration> calibration,
        @Nullable FlowYardstick yardstick,
        MeasurementChain.Standing standing,
        FlowReading.@Nullable Judgement judged,
        FlowReading.@Nullable Judgement withError) {

    /** How it comes out today. */
    public enum Result {
        PASSED,
        FAILED,
        /** It neither proves nor disproves. */
        NOT_ACCEPTED
    }

    public Instant at() {
        return version.told().from();
    }

    public Result result() {
        if (standing != MeasurementChain.Standing.COUNTS || judged == null) {
            return Result.NOT_ACCEPTED;
        }
        return judged.passed() ? Result.PASSED : Result.FAILED;
    }

    public boolean isAccepted() {
        return result() != Result.NOT_ACCEPTED;
    }

    /** Passed with the calibration of the day, and would not have with the error that was found. */
    public boolean isTurned() {
        return judged != null && judged.passed() && withError != null && !withError.passed();
    }

    /** L/min, for a picture: corrected where it could be, else as shown. */
    public BigDecimal drawn() {
        return judged == null ? shown : judged.corrected();
    }

    /** As a flow check gave it on the day; none for an examination, which keeps the reading alone. */
    public @Nullable FlowCheck asGiven() {
        return version.told().fact() instanceof FlowCheck check ? check : null;
    }
}
