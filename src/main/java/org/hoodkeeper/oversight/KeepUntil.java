package org.hoodkeeper.oversight;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import org.hoodkeeper.calculation.Retention;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.LegalHold;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.rules.RetentionRule;
import org.jspecify.annotations.Nullable;

/**
 * How long one record is kept, with everything that corrected it: the longest of the rules that apply, and longer while a legal
 * hold lies on it or an answer of today may rest on it.
 *
 * @param made the later of the day of the event and the day on which it was told, over the record and its corrections
 * @param applied the rules that apply; none where the rule set does not say, which is unknown and keeps the record
 * @param holds legal holds that lie on it now
 * @param inUse why today's answers may still rest on it; none where they do not
 */
public record KeepUntil(
        Kind kind,
        LocalDate made,
        List<Applied> applied,
        List<Told<LegalHold>> holds,
        @Nullable InUse inUse) {

    /** Why a record is kept beyond its rules: an answer given today may rest on it. */
    public enum InUse {
        /** Nothing newer of its kind stands. */
        NEWEST,
        /** What it began has not ended, or what it ended is still on record. */
        OPEN,
        /** No later assessment of the task restates what the result says. */
        NOT_RESTATED,
        /** Nothing was examined since. */
        NOT_EXAMINED,
        /** Who has a set follows from all that was ever claimed of it. */
        WHOLE_HISTORY
    }

    /**
     * One rule with the day from which it counts.
     *
     * @param anchor that day; none while it has not happened
     */
    public record Applied(RetentionRule rule, @Nullable LocalDate anchor, Retention retention) {}

    public KeepUntil {
        applied = List.copyOf(applied);
        holds = List.copyOf(holds);
    }

    /** Whether any rule says how long. */
    public boolean isKnown() {
        return !applied.isEmpty();
    }

    public boolean isHeld() {
        return !holds.isEmpty();
    }

    /** The rule that ends last; one without an end yet outlasts all. None where no rule says how long. */
    public @Nullable Applied deciding() {
        return applied.stream()
                .max(Comparator.comparing(one -> one.retention().lastDay() == null
                        ? LocalDate.MAX
                        : one.retention().lastDay()))
                .orElse(null);
    }

    /** The last day on which it must exist by the rules, that day included; none while no end is known. */
    public @Nullable LocalDate lastDay() {
        return isKnown()
                ? Retention.longest(applied.stream().map(Applied::retention).toList())
                        .lastDay()
                : null;
    }

    /** Whether nothing asks for it any longer on a day: rules over, no legal hold, no use. */
    public boolean mayBeErasedOn(LocalDate day) {
        LocalDate last = lastDay();
        return last != null && day.isAfter(last) && !isHeld() && inUse == null;
    }
}
