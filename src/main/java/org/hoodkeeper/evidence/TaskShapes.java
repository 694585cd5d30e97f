package org.hoodkeeper.evidence;

import static org.hoodkeeper.evidence.Shape.day;
import static org.hoodkeeper.evidence.Shape.name;
import static org.hoodkeeper.evidence.Shape.note;
import static org.hoodkeeper.evidence.Shape.positive;
import static org.hoodkeeper.evidence.Shape.present;
import static org.hoodkeeper.evidence.Shape.within;

import java.math.BigDecimal;
import java.math.MathContext;
import java.time.Duration;
import java.util.HashSet;
import java.util.Set;
import org.hoodkeeper.calculation.TimeWeightedAverage;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.MeasuredCondition;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.TaskTrigger;
import org.hoodkeeper.kernel.Refused;

/** Shapes of the records about a task and the substances of a site. */
final class TaskShapes {

    private static final String HIGHEST = "1000000";

    /** Short-term limits are set over 15 min, asbestos over 30: 29 CFR 1910.1000; 1910.1001(c)(2) (from memory, high). */
    private static final int LONGEST_PEAK = 30;

    private TaskShapes() {}

    static void trigger(TaskTrigger trigger) {
        present(trigger.what(), "trigger.what.missing");
        name(trigger.what(), "what");
        if (trigger.step() == TaskTrigger.Step.CLOSED) {
            present(trigger.note(), "trigger.note.missing");
        }
        note(trigger.note(), "note");
    }

    static void basis(TaskBasis basis) {
        present(basis.atmosphere(), "basis.atmosphere.missing");
        present(basis.mixture(), "basis.mixture.missing");
        present(basis.workRate(), "basis.workRate.missing");
        Set<String> seen = new HashSet<>();
        for (TaskBasis.Exposure exposure : basis.exposures()) {
            present(exposure.substance(), "basis.exposures.substance");
            name(exposure.substance(), "substance");
            present(exposure.value(), "basis.exposures.value");
            positive(exposure.value(), HIGHEST, "basis.exposures.range");
            present(exposure.unit(), "basis.exposures.unit");
            if (!seen.add(exposure.substance())) {
                throw new Refused("basis.exposures.twice", exposure.substance());
            }
        }
        name(basis.statistic(), "statistic");
        day(basis.lastDay(), "basis.lastDay.range");
        day(basis.resultsSince(), "basis.resultsSince.range");
        within(basis.shiftHours(), "1", "23", "basis.shiftHours.range");
        if (basis.longShift() != null && basis.shiftHours() == null) {
            throw new Refused("basis.shiftHours.missing");
        }
        name(basis.assessor(), "assessor");
        note(basis.note(), "note");
        note(basis.whyBelow(), "whyBelow");
    }

    static void exposure(ExposureResult result) {
        present(result.value(), "exposure.value.missing");
        positive(result.value(), HIGHEST, "exposure.value.range");
        present(result.unit(), "exposure.unit.missing");
        name(result.unit(), "unit");
        within(result.minutes(), 1, 1_440, "exposure.minutes.range");
        name(result.method(), "method");
        name(result.person(), "person");
        name(result.laboratory(), "laboratory");
        name(result.group(), "group");
        for (ExposureResult.Part part : result.parts()) {
            present(part.value(), "exposure.parts.value");
            within(part.value(), "0", HIGHEST, "exposure.parts.range");
            within(part.minutes(), 1, 1_440, "exposure.parts.minutes");
        }
        parts(result);
        if (result.against() == ExposureResult.Period.SHORT_TERM
                && result.minutes() != null
                && result.minutes() > LONGEST_PEAK) {
            throw new Refused("exposure.minutes.peak", result.minutes(), LONGEST_PEAK);
        }
    }

    /** The average over eight hours is that of the parts, but for rounding. */
    private static void parts(ExposureResult result) {
        if (result.parts().isEmpty()) {
            return;
        }
        BigDecimal average = TimeWeightedAverage.over8Hours(result.parts().stream()
                .map(part -> new TimeWeightedAverage.Part(part.value(), Duration.ofMinutes(part.minutes())))
                .toList());
        BigDecimal difference = average.subtract(result.value()).abs();
        if (difference.compareTo(average.movePointLeft(2)) > 0) {
            throw new Refused("exposure.parts.differ", result.value(), average.round(new MathContext(4)));
        }
    }

    static void condition(MeasuredCondition condition) {
        present(condition.quantity(), "condition.quantity.missing");
        present(condition.value(), "condition.value.missing");
        switch (condition.quantity()) {
            case WBGT -> within(condition.value(), "-10", "60", "condition.value.range");
        }
    }

    /** No peak may be held below what the whole shift may reach, nor a danger begin there. Common practice, no source. */
    static void limit(Limit limit) {
        present(limit.value(), "limit.value.missing");
        positive(limit.value(), HIGHEST, "limit.value.range");
        present(limit.unit(), "limit.unit.missing");
        name(limit.unit(), "unit");
        positive(limit.idlh(), HIGHEST, "limit.idlh.range");
        if (limit.idlh() != null && limit.idlh().compareTo(limit.value()) < 0) {
            throw new Refused("limit.idlh.below", limit.idlh(), limit.value());
        }
        positive(limit.shortTerm(), HIGHEST, "limit.shortTerm.range");
        positive(limit.ceiling(), HIGHEST, "limit.ceiling.range");
        positive(limit.filterLimit(), HIGHEST, "limit.filterLimit.range");
        if (limit.shortTerm() != null && limit.shortTerm().compareTo(limit.value()) < 0) {
            throw new Refused("limit.shortTerm.below", limit.shortTerm(), limit.value());
        }
        if (limit.ceiling() != null && limit.ceiling().compareTo(limit.value()) < 0) {
            throw new Refused("limit.ceiling.below", limit.ceiling(), limit.value());
        }
        if (limit.filters().isEmpty() && !limit.airFedOnly()) {
            throw new Refused("limit.filters.missing");
        }
        present(limit.source(), "limit.source.missing");
        name(limit.source(), "source");
        present(limit.mark(), "limit.mark.missing");
    }
}
