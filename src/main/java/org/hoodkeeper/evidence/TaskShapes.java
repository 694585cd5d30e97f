package org.hoodkeeper.evidence;

import static org.hoodkeeper.evidence.Shape.day;
import static org.hoodkeeper.evidence.Shape.name;
import static org.hoodkeeper.evidence.Shape.note;
import static org.hoodkeeper.evidence.Shape.positive;
import static org.hoodkeeper.evidence.Shape.present;
import static org.hoodkeeper.evidence.Shape.within;

import java.util.HashSet;
import java.util.Set;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.MeasuredCondition;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.TaskTrigger;
import org.hoodkeeper.kernel.Refused;

/** Shapes of the records about a task and the substances of a site. */
final class TaskShapes {

    private static final String HIGHEST = "1000000";

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
        note(basis.note(), "note");
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
    }

    static void condition(MeasuredCondition condition) {
        present(condition.quantity(), "condition.quantity.missing");
        present(condition.value(), "condition.value.missing");
        switch (condition.quantity()) {
            case WBGT -> within(condition.value(), "-10", "60", "condition.value.range");
        }
    }

    static void limit(Limit limit) {
        present(limit.value(), "limit.value.missing");
        positive(limit.value(), HIGHEST, "limit.value.range");
        present(limit.unit(), "limit.unit.missing");
        name(limit.unit(), "unit");
        positive(limit.idlh(), HIGHEST, "limit.idlh.range");
        if (limit.idlh() != null && limit.idlh().compareTo(limit.value()) < 0) {
            throw new Refused("limit.idlh.below", limit.idlh(), limit.value());
        }
        if (limit.filters().isEmpty() && !limit.airFedOnly()) {
            throw new Refused("limit.filters.missing");
        }
        present(limit.source(), "limit.source.missing");
        name(limit.source(), "source");
        present(limit.mark(), "limit.mark.missing");
    }
}
