package org.hoodkeeper.store;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Comparator;
import java.util.List;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.assessment.Result;
import org.hoodkeeper.assessment.Why;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.rules.RequirementKind;
import org.jspecify.annotations.Nullable;

/**
 * When a set is to be examined, by the rule that the engine itself judges with.
 *
 * @param reason the engine's word on it
 * @param lastDay last day on which the examination that it has is good; none where it has none, or no rule asks
 */
public record DueExamination(
        ShelfSet set, Reason reason, When when, @Nullable LocalDate lastDay) {

    /** In the order of the list. */
    public enum When {
        /** Missing, failed, not accepted, found, or over: nobody wears it. */
        OVERDUE,
        /** Not worn since the last one: before anybody takes it. */
        BEFORE_USE,
        /** Within seven days, today included. */
        WEEK,
        /** Within 31 days, today included. */
        MONTH,
        LATER,
        /** No rule asks for one. */
        NOT_ASKED
    }

    /** The examination that the engine's word names; none where it names none, or a find. */
    public @Nullable RecordId examination() {
        return reason.why() == Why.FOUND ? null : reason.record();
    }

    /** Every set but those withdrawn: what is due first comes first. */
    public static List<DueExamination> of(List<ShelfSet> sets, Instant now, ZoneId zone) {
        return sets.stream()
                .filter(set -> set.state() != ShelfSet.State.WITHDRAWN)
                .flatMap(set -> set.readiness().reasons().stream()
                        .filter(reason -> reason.kind() == RequirementKind.EXAMINATION)
                        .map(reason -> of(set, reason, now, zone)))
                .sorted(Comparator.comparing(DueExamination::when)
                        .thenComparing(due -> due.lastDay() == null ? LocalDate.MIN : due.lastDay())
                        .thenComparing(due -> due.set().label()))
                .toList();
    }

    private static DueExamination of(ShelfSet set, Reason reason, Instant now, ZoneId zone) {
        LocalDate lastDay = reason.goodUntil() == null
                ? null
                : Days.of(reason.goodUntil(), zone).minusDays(1);
        return new DueExamination(set, reason, isDue(reason, lastDay, Days.of(now, zone)), lastDay);
    }

    private static When isDue(Reason reason, @Nullable LocalDate lastDay, LocalDate today) {
        if (reason.why() == Why.DUE_BEFORE_USE) {
            return When.BEFORE_USE;
        }
        if (reason.result().bars()) {
            return When.OVERDUE;
        }
        if (reason.result() == Result.NOT_APPLICABLE || lastDay == null) {
            return When.NOT_ASKED;
        }
        if (lastDay.isBefore(today.plusDays(7))) {
            return When.WEEK;
        }
        return lastDay.isBefore(today.plusDays(31)) ? When.MONTH : When.LATER;
    }
}
