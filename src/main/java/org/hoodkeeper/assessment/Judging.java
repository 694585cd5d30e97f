package org.hoodkeeper.assessment;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.rules.Circumstance;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.RequirementKind;
import org.jspecify.annotations.Nullable;

/**
 * The judgement of one instant while it is being made: what was in force then, what has been found so far, and the next
 * instant at which the calendar, or a record that begins later, may change it.
 */
final class Judging {

    /** Whether the medical requirements are judged at all: a reader without the right gets the answer without them. */
    final Sight sight;

    /** How much of the person is looked at. */
    enum Sight {
        WHOLE,
        WITHOUT_MEDICAL
    }

    final Question question;
    final Dossier dossier;
    final Instant at;
    final LocalDate today;
    final ZoneId zone;
    final InForce rules;
    final @Nullable Told<ModelData> model;
    final @Nullable Told<SetData> setData;
    private final List<Reason> reasons = new ArrayList<>(32);
    private Instant changesAt;

    Judging(Question question, Dossier dossier, Instant at, Sight sight) {
        this.sight = sight;
        this.question = question;
        this.dossier = dossier;
        this.at = at;
        this.zone = dossier.zone();
        this.today = Days.of(at, zone);
        this.rules = dossier.rules().at(at);
        this.changesAt = rules.changesAt();
        this.model = latest(dossier.model().data());
        this.setData = dossier.set() == null ? null : latest(dossier.set().data());
    }

    ModelData modelData() {
        if (model == null) {
            throw new IllegalStateException("asked for model data where there is none");
        }
        return model.fact();
    }

    InterfaceType type() {
        return modelData().type();
    }

    boolean isEmergencySet() {
        return setData != null && setData.fact().emergency();
    }

    InForce.@Nullable Demand demand(RequirementKind kind) {
        return rules.demand(kind, type());
    }

    InForce.@Nullable Demand demand(RequirementKind kind, Circumstance circumstance) {
        return rules.demand(kind, type(), circumstance);
    }

    List<Reason> reasons() {
        return reasons;
    }

    Instant changesAt() {
        return changesAt;
    }

    void add(Reason reason) {
        reasons.add(reason);
        if (reason.goodUntil() != null) {
            watch(reason.goodUntil());
        }
    }

    void met(
            RequirementKind kind,
            Told<?> by,
            InForce.@Nullable Demand rule,
            @Nullable Instant goodUntil,
            Object... details) {
        add(Reason.of(kind, Result.MET, Why.IN_PLACE, details)
                .record(by.id())
                .by(rule)
                .goodUntil(goodUntil));
    }

    void met(RequirementKind kind, Why why, Object... details) {
        add(Reason.of(kind, Result.MET, why, details));
    }

    void notMet(RequirementKind kind, Why why, @Nullable Told<?> by, InForce.@Nullable Demand rule, Object... details) {
        add(Reason.of(kind, Result.NOT_MET, why, details)
                .record(by == null ? null : by.id())
                .by(rule));
    }

    void notApplicable(RequirementKind kind, Why why) {
        add(Reason.of(kind, Result.NOT_APPLICABLE, why));
    }

    /**
     * Not met because its time is over.
     *
     * @param end when the evidence ended; none where it has no end
     * @return whether it was over
     */
    boolean lapsed(
            RequirementKind kind, Told<?> by, InForce.@Nullable Demand rule, @Nullable Instant end, Object... details) {
        return lapsed(kind, Why.LAPSED, by, rule, end, details);
    }

    boolean lapsed(
            RequirementKind kind,
            Why why,
            Told<?> by,
            InForce.@Nullable Demand rule,
            @Nullable Instant end,
            Object... details) {
        if (end == null || at.isBefore(end)) {
            return false;
        }
        List<Object> all = new ArrayList<>(List.of(details));
        all.add(end);
        notMet(kind, why, by, rule, all.toArray());
        return true;
    }

    /** Missing at the start: still to do while the start lies ahead, not met from then on. */
    void missingAtStart(RequirementKind kind, Why why, InForce.@Nullable Demand rule, Object... details) {
        Result result = question.isAhead() ? Result.TO_DO_AT_START : Result.NOT_MET;
        add(Reason.of(kind, result, why, details).by(rule));
    }

    /** Something may change then; earlier or equal instants are no news. */
    void watch(@Nullable Instant instant) {
        if (instant != null && instant.isAfter(at) && instant.isBefore(changesAt)) {
            changesAt = instant;
        }
    }

    /** The newest record that had begun. */
    <F extends Fact> @Nullable Told<F> latest(List<Told<F>> newestFirst) {
        Told<F> next = null;
        for (Told<F> told : newestFirst) {
            if (told.from().isAfter(at)) {
                next = told;
                continue;
            }
            watch(next == null ? null : next.from());
            return told;
        }
        watch(next == null ? null : next.from());
        return null;
    }

    <F extends Fact> @Nullable Told<F> latest(List<Told<F>> newestFirst, Predicate<Told<F>> which) {
        for (Told<F> told : begun(newestFirst)) {
            if (which.test(told)) {
                return told;
            }
        }
        return null;
    }

    /** All records that had begun, newest first; the next one to begin is watched. */
    <F extends Fact> List<Told<F>> begun(List<Told<F>> newestFirst) {
        for (int i = 0; i < newestFirst.size(); i++) {
            if (!newestFirst.get(i).from().isAfter(at)) {
                watch(i == 0 ? null : newestFirst.get(i - 1).from());
                return i == 0 ? newestFirst : newestFirst.subList(i, newestFirst.size());
            }
        }
        watch(
                newestFirst.isEmpty()
                        ? null
                        : newestFirst.get(newestFirst.size() - 1).from());
        return List.of();
    }

    LocalDate dayOf(Told<?> told) {
        return Days.of(told.from(), zone);
    }

    /** When evidence ends under a demand: after its last day, or never. */
    @Nullable Instant endOf(Told<?> evidence, InForce.@Nullable Demand demand) {
        return demand == null || demand.term() == null
                ? null
                : Days.endOf(demand.term().lastDay(dayOf(evidence), rules.yearReading()), zone);
    }

    boolean isOver(@Nullable Instant end) {
        return end != null && !at.isBefore(end);
    }

    /** Whether one record comes after another: by when it was true, and in the same minute by the order of telling. */
    static boolean isAfter(Told<?> one, @Nullable Told<?> other) {
        if (other == null) {
            return true;
        }
        int order = one.from().compareTo(other.from());
        return order > 0 || (order == 0 && one.recordedAt().isAfter(other.recordedAt()));
    }

    static @Nullable Told<?> later(@Nullable Told<?> one, @Nullable Told<?> other) {
        if (one == null) {
            return other;
        }
        return isAfter(one, other) ? one : other;
    }
}
