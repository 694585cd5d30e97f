package org.hoodkeeper.assessment;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.hoodkeeper.kernel.Interval;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.rules.RequirementKind;
import org.hoodkeeper.rules.YearReading;
import org.jspecify.annotations.Nullable;

/**
 * The answer to a question: never a bare colour.
 *
 * @param verdict the worst of the interval
 * @param dueSoon what ends soon, beside any verdict
 * @param reasons every requirement with how it came out at its worst, in the order person, task, kit, supply; all reasons of
 *     a requirement, not the first
 * @param since when each barring reason begins, in the order of {@code reasons}; none for those from the start
 * @param window from the plan's start until it would no longer be cleared; none when not cleared at the start
 * @param prefix when the whole plan is not cleared: the longest beginning of it that is
 * @param clearBy what would clear it, who can, and when where a record tells
 * @param alternatives ways to work today, at most three; empty when cleared
 * @param ruleSets rule sets in force in the interval
 * @param yearReadings how a year is read in the interval, the first one first
 * @param decisions records of the site decisions that the answer rests on
 */
public record Answer(
        Question question,
        Verdict verdict,
        @Nullable DueSoon dueSoon,
        List<Reason> reasons,
        List<Instant> since,
        @Nullable Window window,
        @Nullable Window prefix,
        List<ClearBy> clearBy,
        List<Alternative> alternatives,
        List<String> ruleSets,
        List<YearReading> yearReadings,
        List<RecordId> decisions) {

    public Answer {
        reasons = List.copyOf(reasons);
        since = List.copyOf(since);
        clearBy = List.copyOf(clearBy);
        alternatives = List.copyOf(alternatives);
        ruleSets = List.copyOf(ruleSets);
        yearReadings = List.copyOf(yearReadings);
        decisions = List.copyOf(decisions);
    }

    /** @param lastDay the last day on which it is still good */
    public record DueSoon(RequirementKind kind, LocalDate lastDay) {}

    /**
     * @param interval cleared throughout; ends at {@link Instant#MAX} when nothing known ends it
     * @param conditions cleared with conditions
     * @param endedBy the requirement that ends it; none when nothing known does
     */
    public record Window(
            Interval interval, boolean conditions, @Nullable RequirementKind endedBy) {}

    /**
     * Another ready set, or another task with the same set, that this person is cleared for in the same interval.
     *
     * @param label of the set
     * @param task none where another set is the way
     * @param taskCode of the task
     */
    public record Alternative(
            SetId set,
            String label,
            @Nullable TaskId task,
            @Nullable String taskCode,
            Verdict verdict) {}

    /** The records that decided: what is kept when somebody acts on the answer. */
    public List<RecordId> deciding() {
        return reasons.stream()
                .map(Reason::record)
                .filter(java.util.Objects::nonNull)
                .distinct()
                .toList();
    }

    public Answer with(List<Alternative> found) {
        return new Answer(
                question,
                verdict,
                dueSoon,
                reasons,
                since,
                window,
                prefix,
                clearBy,
                found,
                ruleSets,
                yearReadings,
                decisions);
    }

    /** Reasons of one requirement. */
    public List<Reason> of(RequirementKind kind) {
        return reasons.stream().filter(reason -> reason.kind() == kind).toList();
    }
}
