package org.hoodkeeper.assessment;

import static org.hoodkeeper.rules.RequirementKind.FILTER_LIFE;

import java.time.Duration;
import java.time.Instant;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.PartClass;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.rules.InForce;
import org.jspecify.annotations.Nullable;

/**
 * The filter within the site's schedule for the model: hours in use, and days since it was opened, whichever ends first. Gas
 * and vapour: 29 CFR 1910.134(d)(3)(iii)(B)(2), an objective change schedule; particles: common practice, no source. The age
 * from manufacture is the part's life, judged with the other parts.
 */
final class FilterLife {

    /** An entry whose exit was never told is a gap in the record; it counts as a day of use and no more. */
    private static final Duration LONGEST_WEAR = Duration.ofDays(1);

    private FilterLife() {}

    static void schedule(Judging judging, SetFile set) {
        String model = judging.dossier.model().code();
        InForce.Decided hours = judging.rules.decision("filter.longest-use", model);
        InForce.Decided opened = judging.rules.decision("filter.good-once-opened", model);
        if (!judging.type().filtersRoomAir() || (hours == null && opened == null)) {
            judging.notApplicable(FILTER_LIFE, Why.NOT_REQUIRED);
            return;
        }
        InForce.Demand demand = judging.demand(FILTER_LIFE);
        Told<PartChange> fitted = judging.latest(
                set.partChanges(), told -> told.scope() != null && PartClass.FILTER.isNamed(told.scope()));
        if (fitted == null) {
            judging.add(Reason.of(FILTER_LIFE, Result.UNKNOWN, Why.MISSING).by(demand));
            return;
        }
        Instant usedUp = hours == null ? null : usedUp(judging, set, fitted, hours.duration());
        Instant stale = opened == null
                ? null
                : Days.endOf(opened.term().lastDay(judging.dayOf(fitted), judging.rules.yearReading()), judging.zone);
        boolean over = false;
        if (hours != null && usedUp != null && judging.isOver(usedUp)) {
            over = true;
            judging.notMet(FILTER_LIFE, Why.FILTER_HOURS, fitted, demand, hours.duration(), usedUp);
        }
        over |= judging.lapsed(FILTER_LIFE, Why.FILTER_OPENED, fitted, demand, stale, judging.dayOf(fitted));
        if (!over) {
            judging.met(FILTER_LIFE, fitted, demand, earlier(usedUp, stale), judging.dayOf(fitted));
        }
    }

    /** Use on record up to the plan's start, or to when it was fitted within the plan; from there on the plan stands in its place. */
    private static Instant usedUp(Judging judging, SetFile set, Told<PartChange> fitted, Duration longest) {
        Instant start = judging.question.wear().from();
        if (!fitted.from().isBefore(start)) {
            return fitted.from().plus(longest);
        }
        Duration used = Duration.ZERO;
        Instant earliest = fitted.from().minus(LONGEST_WEAR);
        for (Worn.Stretch stretch : Worn.stretches(set.wears(), start)) {
            if (stretch.interval().from().isBefore(earliest)) {
                continue;
            }
            Instant from = stretch.interval().from().isBefore(fitted.from())
                    ? fitted.from()
                    : stretch.interval().from();
            Duration worn = Duration.between(from, stretch.interval().until());
            if (!worn.isNegative()) {
                used = used.plus(worn.compareTo(LONGEST_WEAR) > 0 ? LONGEST_WEAR : worn);
            }
        }
        return start.plus(longest.minus(used));
    }

    private static @Nullable Instant earlier(@Nullable Instant one, @Nullable Instant other) {
        if (one == null || other == null) {
            return one == null ? other : one;
        }
        return one.isBefore(other) ? one : other;
    }
}
