package org.hoodkeeper.assessment;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import org.hoodkeeper.calculation.AirCondition;
import org.hoodkeeper.calculation.FlowIndicator;
import org.hoodkeeper.calculation.FlowReading;
import org.hoodkeeper.calculation.MinimumFlow;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.rules.InForce;
import org.jspecify.annotations.Nullable;

/**
 * What a flow reading is held against: the instrument's calibration on the day, the model's minimum, and the uncertainty that
 * counts against the set.
 *
 * @param indicator the instrument with its calibration condition, its factor and the uncertainty that is counted
 * @param minimum the maker's, or the floor of type approval where that is higher
 */
public record FlowYardstick(FlowIndicator indicator, MinimumFlow minimum, AirCondition condition) {

    /**
     * @param calibration the instrument's calibration in force at the reading
     * @param model what the maker says of the model on that day
     * @param rules the rules and decisions of that day: the floor of type approval, and the uncertainty that the site assumes
     *     where the certificate states none
     * @return none where the model has no minimum flow
     */
    public static @Nullable FlowYardstick of(Calibration calibration, ModelData model, InForce rules) {
        FlowMinimum asked = FlowMinimum.of(model, rules);
        if (asked == null) {
            return null;
        }
        FlowIndicator indicator = indicator(calibration, assumedUncertainty(rules));
        AirCondition condition = indicator.calibratedAt();
        MinimumFlow minimum = model.flowAt() == ModelData.FlowAt.REFERENCE
                ? MinimumFlow.at(condition, asked.litresPerMinute())
                : MinimumFlow.inLocalAir(asked.litresPerMinute());
        return new FlowYardstick(indicator, minimum, condition);
    }

    /** What counts where a certificate states none, L/min; 0 where the site has not decided. */
    public static BigDecimal assumedUncertainty(InForce rules) {
        InForce.Decided decided = rules.decision("flow.uncertainty-assumed");
        return decided == null ? BigDecimal.ZERO : decided.number();
    }

    /** The instrument as it left that calibration. @param assumedUncertainty where the certificate states none, L/min */
    public static FlowIndicator indicator(Calibration calibration, BigDecimal assumedUncertainty) {
        return new FlowIndicator(
                new AirCondition(calibration.celsius(), calibration.hectopascals()),
                calibration.factor(),
                calibration.uncertainty() == null ? assumedUncertainty : calibration.uncertainty());
    }

    /**
     * @param celsius air at the reading; where temperature or pressure was not measured, the calibration's own is taken and
     *     nothing is corrected for it
     * @throws Refused when a figure is outside of what the instrument or the formula can mean
     */
    public FlowReading.Judgement judge(
            BigDecimal reading, @Nullable BigDecimal celsius, @Nullable BigDecimal hectopascals) {
        return new FlowReading(reading, air(celsius, hectopascals)).judge(indicator, minimum);
    }

    /** The lowest reading that passes in that air, L/min, rounded up to 0.1. */
    public BigDecimal required(@Nullable BigDecimal celsius, @Nullable BigDecimal hectopascals) {
        return FlowReading.required(indicator, minimum, air(celsius, hectopascals));
    }

    private AirCondition air(@Nullable BigDecimal celsius, @Nullable BigDecimal hectopascals) {
        return new AirCondition(
                celsius == null ? condition.celsius() : celsius,
                hectopascals == null ? condition.hectopascals() : hectopascals);
    }

    /**
     * The calibration that makes a result of that instant count: passed, in date on the day, and not found out of tolerance at
     * the next one.
     *
     * @param newestFirst the instrument's calibrations as known
     * @return none where the instrument was not valid
     */
    public static @Nullable Told<Calibration> validAt(List<Told<Calibration>> newestFirst, Instant at, ZoneId zone) {
        Told<Calibration> next = null;
        for (Told<Calibration> told : newestFirst) {
            if (told.from().isAfter(at)) {
                next = told;
                continue;
            }
            boolean inDate = !Days.of(at, zone).isAfter(told.fact().lastDay());
            boolean goodAfterwards = next == null || next.fact().asFoundInTolerance();
            return told.fact().outcome() == Outcome.PASS && inDate && goodAfterwards ? told : null;
        }
        return null;
    }
}
