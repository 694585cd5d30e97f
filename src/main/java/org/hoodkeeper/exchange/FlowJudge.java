package org.hoodkeeper.exchange;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.assessment.FlowMinimum;
import org.hoodkeeper.assessment.FlowYardstick;
import org.hoodkeeper.calculation.FlowReading;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.FlowCheck;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.RuleBook;
import org.jspecify.annotations.Nullable;

/** Judges readings of a file with the yardsticks of their day as known now, like the form at the bench. */
final class FlowJudge {

    private final ZoneId zone;
    private final Map<UUID, List<Told<SetData>>> sets;
    private final Map<UUID, List<Told<ModelData>>> models;
    private final Map<UUID, List<Told<Calibration>>> calibrations;
    private final RuleBook rules;

    /** The lists newest first. @param rules as known now */
    FlowJudge(
            ZoneId zone,
            Map<UUID, List<Told<SetData>>> sets,
            Map<UUID, List<Told<ModelData>>> models,
            Map<UUID, List<Told<Calibration>>> calibrations,
            RuleBook rules) {
        this.zone = zone;
        this.sets = sets;
        this.models = models;
        this.calibrations = calibrations;
        this.rules = rules;
    }

    /**
     * A reading of an instrument that was not valid is kept and not judged: no corrected flow, and not passed.
     *
     * @throws Refused {@code exchange.flow.none} for a set without a minimum flow; or when a figure is out of range
     */
    FlowCheck judge(FlowCheck raw, UUID set, Instant at) {
        SetData data = at(sets.get(set), at);
        ModelData model = data == null ? null : at(models.get(data.model().value()), at);
        InForce inForce = rules.at(at);
        FlowMinimum minimum = model == null ? null : FlowMinimum.of(model, inForce);
        if (model == null || minimum == null) {
            throw new Refused("exchange.flow.none");
        }
        Told<Calibration> calibration =
                FlowYardstick.validAt(calibrations.getOrDefault(raw.instrument().value(), List.of()), at, zone);
        FlowYardstick yardstick = calibration == null ? null : FlowYardstick.of(calibration.fact(), model, inForce);
        if (yardstick == null) {
            return with(raw, null, minimum.litresPerMinute(), null, Outcome.FAIL);
        }
        FlowReading.Judgement judgement = yardstick.judge(raw.reading(), raw.celsius(), raw.hectopascals());
        return with(
                raw,
                judgement.corrected(),
                minimum.litresPerMinute(),
                yardstick.indicator().uncertainty(),
                judgement.passed() ? Outcome.PASS : Outcome.FAIL);
    }

    private static FlowCheck with(
            FlowCheck raw,
            @Nullable BigDecimal corrected,
            @Nullable BigDecimal minimum,
            @Nullable BigDecimal uncertainty,
            Outcome outcome) {
        return new FlowCheck(
                raw.reading(),
                raw.instrument(),
                raw.celsius(),
                raw.hectopascals(),
                corrected,
                minimum,
                uncertainty,
                outcome);
    }

    /** What was so at that instant; before the first record the first counts, for a file may begin before the site did. */
    private static <F extends org.hoodkeeper.facts.Fact> @Nullable F at(
            @Nullable List<Told<F>> newestFirst, Instant at) {
        if (newestFirst == null || newestFirst.isEmpty()) {
            return null;
        }
        for (Told<F> told : newestFirst) {
            if (!told.from().isAfter(at)) {
                return told.fact();
            }
        }
        return newestFirst.get(newestFirst.size() - 1).fact();
    }
}
