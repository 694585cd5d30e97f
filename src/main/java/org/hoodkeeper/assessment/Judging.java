package org.hoodkeeper.assessment;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.rules.Circumstance;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.RequirementKind;
import org.jspecify.annotations.Nullable;

/** The judgement of one instant while it is being made: what was in force then, and what has been found so far. */
final class Judging extends Looking {

    /** One for each requirement, most often. */
    private static final int REASONS = RequirementKind.values().length;

    /** Whether the medical requirements are judged at all: a reader without the right gets the answer without them. */
    final Sight sight;

    /** How much of the person is looked at. */
    enum Sight {
        WHOLE,
        WITHOUT_MEDICAL
    }

    final Question question;
    final Dossier dossier;
    final LocalDate today;
    final ZoneId zone;
    final InForce rules;
    final @Nullable Told<ModelData> model;
    final @Nullable Told<SetData> setData;
    /** As far as it has been looked for. */
    StartRequirements.@Nullable CurrentCheck currentCheck;
    /** As far as it has been looked for. */
    CareRequirements.@Nullable Find find;

    /** The highest factor that the fit test lets be relied on; none where it bounds none. */
    @Nullable BigDecimal reliedUpTo;

    private final List<Reason> reasons = new ArrayList<>(REASONS);

    Judging(Question question, Dossier dossier, Instant at, Sight sight) {
        this(question, dossier, at, sight, dossier.rules().at(at));
    }

    private Judging(Question question, Dossier dossier, Instant at, Sight sight, InForce rules) {
        super(at, rules.changesAt());
        this.rules = rules;
        this.sight = sight;
        this.question = question;
        this.dossier = dossier;
        this.zone = dossier.zone();
        this.today = Days.of(at, zone);
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
        add(new Reason(kind, Result.MET, Why.IN_PLACE, List.of(details), by.id(), rule, goodUntil));
    }

    void met(RequirementKind kind, Why why) {
        reasons.add(Reason.plain(kind, Result.MET, why));
    }

    void met(RequirementKind kind, Why why, Object detail) {
        reasons.add(Reason.of(kind, Result.MET, why, detail));
    }

    void notMet(RequirementKind kind, Why why, @Nullable Told<?> by, InForce.@Nullable Demand rule, Object... details) {
        add(new Reason(kind, Result.NOT_MET, why, List.of(details), by == null ? null : by.id(), rule, null));
    }

    void notApplicable(RequirementKind kind, Why why) {
        reasons.add(Reason.plain(kind, Result.NOT_APPLICABLE, why));
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
        Object[] all = Arrays.copyOf(details, details.length + 1, Object[].class);
        all[details.length] = end;
        notMet(kind, why, by, rule, all);
        return true;
    }

    /** Missing at the start: still to do while the start lies ahead, not met from then on. */
    void missingAtStart(RequirementKind kind, Why why, InForce.@Nullable Demand rule, Object... details) {
        Result result = question.isAhead() ? Result.TO_DO_AT_START : Result.NOT_MET;
        add(new Reason(kind, result, why, List.of(details), null, rule, null));
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
