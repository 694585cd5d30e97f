package org.hoodkeeper.assessment;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import org.hoodkeeper.facts.BatteryTest;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.facts.PartClass;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.rules.InForce;
import org.jspecify.annotations.Nullable;

/**
 * How long a charged battery of a set runs, and how much of that is kept back. What was last measured on the battery that is in
 * the set counts, and never more than the maker's figure; where nothing was measured the maker's figure counts, unless the site
 * has decided that batteries are measured. A time measured with a clean filter, and the maker's, are cut down by the load that the site
 * decided: usable = measured × load − reserve; arithmetic and common practice, no source.
 *
 * @param full from full charge in the conditions of use, whole minutes rounded down; none where it is unknown
 * @param measured what counts of the test before any load, never more than the maker's figure; none where nothing was measured
 * @param reserve kept back
 * @param test what was measured; none where nothing was, or not on this battery
 * @param goodUntil when the test is too old; none where it never is
 * @param why why it is unknown; none where it is known
 */
public record BatteryTime(
        @Nullable Duration full,
        @Nullable Duration measured,
        Duration reserve,
        @Nullable Told<BatteryTest> test,
        @Nullable Instant goodUntil,
        @Nullable Why why) {

    /** Of a set at that instant. */
    public static BatteryTime of(InForce rules, ModelData model, SetFile set, Instant at, ZoneId zone) {
        return of(new Looking(at, Instant.MAX), rules, model, set, zone);
    }

    /** @param set none where a model alone is asked about: then the maker's figure counts */
    static BatteryTime of(Looking looking, InForce rules, ModelData model, @Nullable SetFile set, ZoneId zone) {
        Duration reserve = reserve(rules);
        Told<BatteryTest> test = set == null ? null : onThisBattery(looking, set);
        Instant end = test == null ? null : end(rules, test, zone);
        Integer maker = model.batteryMinutes();
        if (looking.isOver(end)) {
            return new BatteryTime(null, null, reserve, test, end, Why.LAPSED);
        }
        if (test != null) {
            int runs = maker == null
                    ? test.fact().minutes()
                    : Math.min(maker, test.fact().minutes());
            BigDecimal load = test.fact().filterLoaded() ? BigDecimal.ONE : load(rules);
            return new BatteryTime(minutes(runs, load), Duration.ofMinutes(runs), reserve, test, end, null);
        }
        if (set != null && interval(rules) != null) {
            return new BatteryTime(null, null, reserve, null, null, Why.NOT_TESTED);
        }
        return maker == null
                ? new BatteryTime(null, null, reserve, null, null, Why.MISSING)
                : new BatteryTime(minutes(maker, load(rules)), null, reserve, null, null, null);
    }

    /** The newest test since a battery was last fitted: another battery runs as long as it runs. */
    private static @Nullable Told<BatteryTest> onThisBattery(Looking looking, SetFile set) {
        Told<BatteryTest> test = looking.latest(set.batteryTests());
        Told<PartChange> fitted = looking.latest(
                set.partChanges(), told -> told.scope() != null && PartClass.BATTERY.isNamed(told.scope()));
        return test != null && Judging.isAfter(test, fitted) ? test : null;
    }

    private static @Nullable Instant end(InForce rules, Told<BatteryTest> test, ZoneId zone) {
        InForce.Decided interval = interval(rules);
        return interval == null
                ? null
                : Days.endOf(interval.term().lastDay(Days.of(test.from(), zone), rules.yearReading()), zone);
    }

    /** None where the site asks for no tests. */
    private static InForce.@Nullable Decided interval(InForce rules) {
        InForce.Decided decided = rules.decision("battery.test-interval");
        return decided == null || decided.value().equals("none") ? null : decided;
    }

    private static Duration reserve(InForce rules) {
        InForce.Decided decided = rules.decision("battery.reserve");
        return decided == null ? Duration.ZERO : decided.duration();
    }

    private static BigDecimal load(InForce rules) {
        InForce.Decided decided = rules.decision("battery.load");
        return decided == null ? BigDecimal.ONE : decided.number();
    }

    private static Duration minutes(int runs, BigDecimal load) {
        return Duration.ofMinutes(BigDecimal.valueOf(runs)
                .multiply(load)
                .setScale(0, RoundingMode.FLOOR)
                .longValueExact());
    }

    /** What may be planned with, of a battery charged that far. @param percent of full charge */
    Duration usable(int percent) {
        if (full == null) {
            throw new IllegalStateException("asked for the time of a battery that is unknown");
        }
        Duration left = full.multipliedBy(percent).dividedBy(100).minus(reserve);
        return left.isNegative() ? Duration.ZERO : left;
    }

    /** Per cent of the maker's figure that was measured, rounded down; none where one of both is unknown. */
    public static @Nullable Integer percentOfNew(BatteryTest test, ModelData model) {
        return model.batteryMinutes() == null ? null : test.minutes() * 100 / model.batteryMinutes();
    }

    /** Whether so little is left of new that the site marks the battery for retirement; never before the site has decided. */
    public static boolean isToRetire(InForce rules, BatteryTest test, ModelData model) {
        InForce.Decided below = rules.decision("battery.retire-below");
        return below != null
                && model.batteryMinutes() != null
                && BigDecimal.valueOf(test.minutes() * 100L)
                                .compareTo(below.number().multiply(BigDecimal.valueOf(model.batteryMinutes())))
                        < 0;
    }
}
