package org.hoodkeeper.assessment;

import static org.hoodkeeper.rules.RequirementKind.MEDICAL;
import static org.hoodkeeper.rules.RequirementKind.SYMPTOM_REVIEW;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.facts.MeasuredCondition;
import org.hoodkeeper.facts.MedicalOutcome;
import org.hoodkeeper.facts.SymptomReport;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.rules.InForce;
import org.jspecify.annotations.Nullable;

/**
 * The medical outcome and its limits, and reports of symptoms that wait for review. A limit counts wherever an outcome is on
 * record, also where no rule asks for one.
 */
final class MedicalRequirements {

    private MedicalRequirements() {}

    static void outcome(Judging judging) {
        InForce.Demand demand = judging.demand(MEDICAL);
        Told<MedicalOutcome> told = judging.latest(judging.dossier.worker().medical());
        if (told == null) {
            if (demand == null) {
                judging.notApplicable(MEDICAL, Why.NOT_REQUIRED);
            } else {
                judging.notMet(MEDICAL, Why.MISSING, null, demand);
            }
            return;
        }
        MedicalOutcome outcome = told.fact();
        if (!outcome.isFit()) {
            Why why = outcome.result() == MedicalOutcome.Result.UNFIT ? Why.UNFIT : Why.TEMPORARILY_UNFIT;
            judging.notMet(MEDICAL, why, told, demand);
            return;
        }
        Instant end = end(judging, told, demand);
        boolean lapsed = judging.lapsed(MEDICAL, told, demand, end, judging.dayOf(told));
        if (!outcome.allows(judging.type())) {
            judging.notMet(MEDICAL, Why.INTERFACE_EXCLUDED, told, demand, judging.type());
        }
        if (!outcome.interfaces().isEmpty() && outcome.allows(judging.type())) {
            judging.met(MEDICAL, Why.INTERFACES_ONLY, List.copyOf(outcome.interfaces()));
        }
        Instant left = lapsed ? null : end;
        wear(judging, told, demand);
        heat(judging, told, demand, left);
        workRate(judging, told, demand, left);
        if (outcome.neverAlone()) {
            judging.add(condition(Why.NEVER_ALONE, told, demand).goodUntil(left));
        }
        if (!lapsed && outcome.allows(judging.type())) {
            // beside its limits too, whatever they say: a limit of the shift has an end of its own, and the outcome's
            // end is due soon all the same
            judging.met(MEDICAL, told, demand, end);
        } else {
            judging.watch(left);
        }
    }

    private static @Nullable Instant end(Judging judging, Told<MedicalOutcome> told, InForce.@Nullable Demand demand) {
        Instant byRule = judging.endOf(told, demand);
        if (told.fact().reviewOn() == null) {
            return byRule;
        }
        Instant byReview = Days.endOf(told.fact().reviewOn(), judging.zone);
        return byRule == null || byReview.isBefore(byRule) ? byReview : byRule;
    }

    private static void wear(Judging judging, Told<MedicalOutcome> told, InForce.@Nullable Demand demand) {
        Integer minutes = told.fact().maxWearMinutes();
        if (minutes == null) {
            return;
        }
        Duration longest = Duration.ofMinutes(minutes);
        Instant reached = Worn.limitReached(judging, longest);
        if (judging.isOver(reached)) {
            judging.notMet(MEDICAL, Why.WEAR_LIMIT, told, demand, longest, reached);
        } else {
            judging.add(
                    condition(Why.WEAR_LIMIT, told, demand, longest, reached).goodUntil(reached));
        }
    }

    private static void heat(
            Judging judging, Told<MedicalOutcome> told, InForce.@Nullable Demand demand, @Nullable Instant end) {
        BigDecimal highest = told.fact().maxWbgt();
        if (highest == null) {
            return;
        }
        Told<MeasuredCondition> reading = judging.latest(
                judging.dossier.task().conditions(),
                measured -> measured.fact().quantity() == MeasuredCondition.Quantity.WBGT);
        if (reading != null && reading.fact().value().compareTo(highest) > 0 && isOfToday(judging, reading)) {
            judging.notMet(
                    MEDICAL,
                    Why.HEAT_LIMIT,
                    told,
                    demand,
                    highest,
                    reading.fact().value());
        } else {
            judging.add(condition(Why.HEAT_LIMIT, told, demand, highest).goodUntil(end));
        }
    }

    /** Measured on that day, or in the shift that is on: midnight cools nothing. */
    private static boolean isOfToday(Judging judging, Told<MeasuredCondition> reading) {
        Instant over = reading.from().plus(Worn.shiftEndsAfter(judging));
        judging.watch(over);
        judging.watch(Days.endOf(judging.today, judging.zone));
        return judging.dayOf(reading).equals(judging.today) || !judging.isOver(over);
    }

    private static void workRate(
            Judging judging, Told<MedicalOutcome> told, InForce.@Nullable Demand demand, @Nullable Instant end) {
        MedicalOutcome.WorkRate hardest = told.fact().maxWorkRate();
        if (hardest == null) {
            return;
        }
        Told<TaskBasis> basis = judging.latest(judging.dossier.task().bases());
        if (basis != null && basis.fact().workRate().compareTo(hardest) > 0) {
            judging.notMet(
                    MEDICAL,
                    Why.WORK_RATE_LIMIT,
                    told,
                    demand,
                    hardest,
                    basis.fact().workRate());
        } else {
            judging.add(condition(Why.WORK_RATE_LIMIT, told, demand, hardest).goodUntil(end));
        }
    }

    private static Reason condition(
            Why why, Told<MedicalOutcome> told, InForce.@Nullable Demand demand, Object... details) {
        return Reason.of(MEDICAL, Result.MET_WITH_CONDITIONS, why, details)
                .record(told.id())
                .by(demand);
    }

    /** A report of symptoms stops wear until the health role has reviewed it: 29 CFR 1910.134(e)(7)(i). */
    static void symptoms(Judging judging) {
        var begun = judging.begun(judging.dossier.worker().symptoms());
        Set<UUID> reviewed = begun.isEmpty() ? Set.of() : new HashSet<>();
        for (Told<SymptomReport> told : begun) {
            if (told.fact().step() == SymptomReport.Step.REVIEWED && told.item() != null) {
                reviewed.add(told.item());
            }
        }
        InForce.Demand demand = judging.demand(SYMPTOM_REVIEW);
        boolean open = false;
        for (Told<SymptomReport> told : begun) {
            if (told.fact().step() == SymptomReport.Step.REPORTED
                    && !reviewed.contains(told.id().value())) {
                open = true;
                judging.notMet(SYMPTOM_REVIEW, Why.REVIEW_OPEN, told, demand, judging.dayOf(told));
            }
        }
        if (!open) {
            judging.met(SYMPTOM_REVIEW, Why.IN_PLACE);
        }
    }
}
