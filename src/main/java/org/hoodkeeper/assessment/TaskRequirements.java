package org.hoodkeeper.assessment;

import static org.hoodkeeper.rules.RequirementKind.ADEQUACY;
import static org.hoodkeeper.rules.RequirementKind.ATMOSPHERE;
import static org.hoodkeeper.rules.RequirementKind.BASIS;
import static org.hoodkeeper.rules.RequirementKind.FILTER;
import static org.hoodkeeper.rules.RequirementKind.INTERFACE;
import static org.hoodkeeper.rules.RequirementKind.TASK_TRIGGER;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.calculation.Adequacy;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.FilterKind;
import org.hoodkeeper.facts.Hold;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.TaskTrigger;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.rules.InForce;
import org.jspecify.annotations.Nullable;

/** What is required of the task: its basis, and that this kind of device is enough for it. */
final class TaskRequirements {

    private TaskRequirements() {}

    /** The task has an assessment that is still good: 29 CFR 1910.134(d)(1); COSHH regulation 6. */
    static @Nullable Told<TaskBasis> basis(Judging judging, InForce.@Nullable Demand demand) {
        Told<TaskBasis> basis = judging.latest(judging.dossier.task().bases());
        if (basis == null) {
            judging.notMet(BASIS, Why.MISSING, null, demand);
            return null;
        }
        Instant end =
                basis.fact().lastDay() == null ? null : Days.endOf(basis.fact().lastDay(), judging.zone);
        if (!judging.lapsed(BASIS, basis, demand, end, judging.dayOf(basis))) {
            judging.met(BASIS, basis, demand, end, judging.dayOf(basis));
        }
        return basis;
    }

    /** Nothing has put the basis in question, and nobody has stopped the task. */
    static void triggers(Judging judging) {
        List<Told<TaskTrigger>> begun = judging.begun(judging.dossier.task().triggers());
        Set<UUID> closed = begun.isEmpty() ? Set.of() : new HashSet<>();
        for (Told<TaskTrigger> told : begun) {
            if (told.fact().step() == TaskTrigger.Step.CLOSED && told.item() != null) {
                closed.add(told.item());
            }
        }
        boolean open = false;
        for (Told<TaskTrigger> told : begun) {
            if (told.fact().step() == TaskTrigger.Step.OPENED
                    && !closed.contains(told.id().value())) {
                open = true;
                judging.notMet(
                        TASK_TRIGGER, Why.TRIGGER_OPEN, told, null, told.fact().what(), judging.dayOf(told));
            }
        }
        for (Told<Hold> hold : OpenHolds.of(judging, judging.dossier.task().holds())) {
            open = true;
            judging.notMet(TASK_TRIGGER, Why.HELD, hold, null, hold.fact().why());
        }
        if (!open) {
            judging.met(TASK_TRIGGER, Why.IN_PLACE);
        }
    }

    /**
     * Immediately dangerous, short of oxygen or unknown: only the classes that the rule set names for it; never a hood, never a
     * filter. 29 CFR 1910.134(d)(1)(iii), (d)(2).
     */
    static void atmosphere(Judging judging, Told<TaskBasis> basis) {
        InForce.Demand demand = judging.demand(ATMOSPHERE);
        TaskBasis.Atmosphere atmosphere = basis.fact().atmosphere();
        if (atmosphere == TaskBasis.Atmosphere.ORDINARY || isForDangerousAir(judging)) {
            judging.met(ATMOSPHERE, basis, demand, null);
        } else if (judging.type() == InterfaceType.BREATHING_APPARATUS) {
            judging.notMet(
                    ATMOSPHERE,
                    Why.CLASS_NOT_NAMED,
                    basis,
                    demand,
                    judging.dossier.model().code());
        } else {
            Why why =
                    switch (atmosphere) {
                        case IDLH -> Why.IDLH;
                        case OXYGEN_DEFICIENT -> Why.OXYGEN_DEFICIENT;
                        case UNKNOWN, ORDINARY -> Why.ATMOSPHERE_UNKNOWN;
                    };
            judging.notMet(ATMOSPHERE, why, basis, demand, judging.type());
        }
    }

    private static boolean isForDangerousAir(Judging judging) {
        InForce.Factor factor = judging.rules.factor(judging.modelData());
        return factor != null && factor.isForDangerousAir();
    }

    static void allowedInterface(Judging judging, Told<TaskBasis> basis) {
        Set<InterfaceType> allowed = basis.fact().interfaces();
        if (allowed.isEmpty() || allowed.contains(judging.type())) {
            judging.met(INTERFACE, basis, null, null);
        } else {
            judging.notMet(INTERFACE, Why.NOT_FOR_TASK, basis, null, judging.type(), new ArrayList<>(allowed));
        }
    }

    /**
     * Hazard ratio at most the assigned factor, and no concentration at or above what is immediately dangerous: 29 CFR
     * 1910.134(d)(3)(i); HSG53, "adequate". The factor is the rule set's for the class on the day. A class that the rule set names
     * for an immediately dangerous air is enough for an air called dangerous whose ratio nobody knows: (d)(1)(iii), (d)(2); but not
     * where what is known of that air is more than its factor covers.
     */
    static void adequacy(Judging judging, Told<TaskBasis> basis) {
        InForce.Demand demand = judging.demand(ADEQUACY);
        InForce.Factor factor = judging.rules.factor(judging.modelData());
        if (factor == null) {
            judging.add(Reason.of(
                            ADEQUACY,
                            Result.UNKNOWN,
                            Why.CLASS_UNKNOWN,
                            judging.dossier.model().code())
                    .record(judging.model == null ? null : judging.model.id())
                    .by(demand));
            return;
        }
        TaskAirAt air = air(judging, basis);
        AirPart unknown = unknown(air.parts());
        boolean isKnown = !air.parts().isEmpty() && unknown == null;
        if (!isKnown && factor.isForDangerousAir() && basis.fact().atmosphere() != TaskBasis.Atmosphere.ORDINARY) {
            if (AirAdequacy.isShort(air.parts(), basis.fact(), factor)) {
                judge(judging, basis, demand, factor, air);
            } else {
                judging.add(new Reason(
                        ADEQUACY,
                        Result.MET,
                        Why.NAMED_FOR_AIR,
                        List.of(factor.deviceClass()),
                        basis.id(),
                        demand,
                        null));
            }
            return;
        }
        if (unknown != null && unknown.problem() != null) {
            judging.add(Reason.of(ADEQUACY, Result.UNKNOWN, unknown.problem(), unknown.substance(), unknown.unit())
                    .record(
                            unknown.movedBy() == null
                                    ? basis.id()
                                    : unknown.movedBy().id())
                    .by(demand));
            return;
        }
        if (air.parts().isEmpty()) {
            judging.add(Reason.of(ADEQUACY, Result.UNKNOWN, Why.MISSING)
                    .record(basis.id())
                    .by(demand));
            return;
        }
        judge(judging, basis, demand, factor, air);
    }

    private static @Nullable AirPart unknown(List<AirPart> parts) {
        for (AirPart part : parts) {
            if (part.problem() != null) {
                return part;
            }
        }
        return null;
    }

    private static TaskAirAt air(Judging judging, Told<TaskBasis> basis) {
        return judging.dossier.task().results().air(judging, basis);
    }

    /** The shift, the peaks and the ceiling are judged apart, and the worst of them speaks. */
    private static void judge(
            Judging judging,
            Told<TaskBasis> basis,
            InForce.@Nullable Demand demand,
            InForce.Factor factor,
            TaskAirAt air) {
        InForce.Factor relied = relied(judging, factor);
        Adequacy worst = null;
        List<AirPart> worstParts = List.of();
        for (TaskAirAt.InPeriod period : air.against(relied, judging.type())) {
            Adequacy adequacy = period.adequacy();
            for (Adequacy.Shortfall shortfall : adequacy.shortfalls()) {
                switch (shortfall.reason()) {
                    case FACTOR_BELOW_RATIO -> {
                        // said once, below, for the worst of the periods
                    }
                    case IMMEDIATELY_DANGEROUS ->
                        judging.notMet(
                                ADEQUACY,
                                Why.IDLH,
                                basis,
                                demand,
                                judging.type(),
                                String.valueOf(shortfall.substance()));
                    case BEYOND_FILTER ->
                        judging.notMet(
                                ADEQUACY,
                                Why.BEYOND_FILTER,
                                basis,
                                demand,
                                judging.type(),
                                String.valueOf(shortfall.substance()));
                }
            }
            if (worst == null
                    || adequacy.ratio().value().compareTo(worst.ratio().value()) > 0) {
                worst = adequacy;
                worstParts = period.parts();
            }
        }
        if (worst != null) {
            say(judging, basis, demand, factor, relied, worst, worstParts);
        }
    }

    /** The class's factor, or what the wearer's fit test lets be relied on of it: 29 CFR 1910.134(f)(6). */
    private static InForce.Factor relied(Judging judging, InForce.Factor factor) {
        return judging.reliedUpTo == null || factor.value().compareTo(judging.reliedUpTo) <= 0
                ? factor
                : new InForce.Factor(
                        judging.reliedUpTo, factor.deviceClass(), factor.provenance(), factor.dangerousAir());
    }

    private static void say(
            Judging judging,
            Told<TaskBasis> basis,
            InForce.@Nullable Demand demand,
            InForce.Factor factor,
            InForce.Factor relied,
            Adequacy adequacy,
            List<AirPart> parts) {
        Told<ExposureResult> movedBy = newest(parts);
        // the fit test is named only where it decides: where the class itself is short, no other test helps
        boolean byFitTest = !relied.equals(factor) && adequacy.ratio().isCoveredBy(factor.value());
        Object[] figures = figures(judging, adequacy, byFitTest ? relied : factor, movedBy);
        Told<?> record = movedBy == null ? basis : movedBy;
        boolean peak = parts.get(0).period() != ExposureResult.Period.SHIFT;
        if (!adequacy.ratio().isCoveredBy(relied.value())) {
            Why why = byFitTest
                    ? Why.FIT_TEST_SHORT
                    : peak ? Why.PEAK_SHORT : movedBy == null ? Why.FACTOR_SHORT : Why.SHORT_BY_RESULTS;
            judging.notMet(ADEQUACY, why, record, demand, figures);
        } else if (adequacy.isAdequate() && !barsAdequacy(judging.reasons())) {
            Why why = byFitTest
                    ? Why.FIT_TEST_COVERED
                    : peak ? Why.PEAK_COVERED : movedBy == null ? Why.IN_PLACE : Why.RESULTS_COVERED;
            judging.add(new Reason(ADEQUACY, Result.MET, why, List.of(figures), record.id(), demand, null));
        }
    }

    private static Object[] figures(
            Judging judging, Adequacy adequacy, InForce.Factor factor, @Nullable Told<ExposureResult> movedBy) {
        BigDecimal ratio = shown(adequacy.ratio().value());
        Object mark = factor.provenance().mark();
        return movedBy == null
                ? new Object[] {ratio, factor.value(), factor.deviceClass(), mark}
                : new Object[] {ratio, factor.value(), factor.deviceClass(), mark, judging.dayOf(movedBy)};
    }

    private static boolean barsAdequacy(List<Reason> reasons) {
        for (Reason reason : reasons) {
            if (reason.kind() == ADEQUACY && reason.result().bars()) {
                return true;
            }
        }
        return false;
    }

    private static @Nullable Told<ExposureResult> newest(List<AirPart> parts) {
        Told<ExposureResult> newest = null;
        for (AirPart part : parts) {
            if (part.movedBy() != null && Judging.isAfter(part.movedBy(), newest)) {
                newest = part.movedBy();
            }
        }
        return newest;
    }

    /** A ratio for people: three digits, never rounded down, so that it does not look better than it is. */
    private static BigDecimal shown(BigDecimal ratio) {
        int scale = Math.max(0, 3 - (ratio.precision() - ratio.scale()));
        return ratio.setScale(Math.min(scale, Math.max(ratio.scale(), 0)), RoundingMode.CEILING);
    }

    /** The filter stops every substance, not only the first; where none may be relied on, only supplied air will do. */
    static void filter(Judging judging, Told<TaskBasis> basis) {
        InForce.Demand demand = judging.demand(FILTER);
        ModelData model = judging.modelData();
        if (!model.type().filtersRoomAir()) {
            judging.notApplicable(FILTER, Why.NOT_REQUIRED);
            return;
        }
        boolean covered = true;
        String before = null;
        for (AirPart exposure : air(judging, basis).parts()) {
            // the parts of one substance follow each other
            if (exposure.substance().equals(before)) {
                continue;
            }
            before = exposure.substance();
            Told<Limit> limit = exposure.limit();
            if (limit == null) {
                covered = false;
                judging.add(Reason.of(FILTER, Result.UNKNOWN, Why.LIMIT_UNKNOWN, exposure.substance(), exposure.unit())
                        .record(basis.id())
                        .by(demand));
            } else if (limit.fact().airFedOnly()) {
                covered = false;
                judging.notMet(FILTER, Why.AIR_FED_ONLY, limit, demand, exposure.substance());
            } else if (!model.filters().containsAll(limit.fact().filters())) {
                covered = false;
                Set<FilterKind> lacking = EnumSet.copyOf(limit.fact().filters());
                lacking.removeAll(model.filters());
                judging.notMet(FILTER, Why.FILTER_SHORT, limit, demand, exposure.substance(), new ArrayList<>(lacking));
            }
        }
        if (covered) {
            judging.met(FILTER, basis, demand, null);
        }
    }
}
