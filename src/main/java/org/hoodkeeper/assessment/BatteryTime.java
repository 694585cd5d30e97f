package org.hoodkeeper.assessment;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hoodkeeper.calculation.parts.PrintedMark;
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
 * the set counts, and never more than the maker's figure; of several that go with it the one that ran the shortest, or whose
 * test is too old, since nobody knows which of them is in it (the stricter reading, no source); where nothing was measured the
 * maker's figure counts, unless the site has decided that batteries are measured. A time measured with a clean filter, and the
 * maker's, are cut down by the load that the site decided: usable = measured × load − reserve; arithmetic and common practice, no
 * source. A load that is no part of a whole leaves them unknown: 80 may have meant 0.8, and the running time is never more than
 * the maker's figure.
 *
 * @param full from full charge in the conditions of use, whole minutes rounded down; none where it is unknown
 * @param measured what counts of the test before any load, never more than the maker's figure; none where nothing was measured
 * @param reserve kept back
 * @param test what was measured; none where nothing was, or not on one of its batteries
 * @param goodUntil when that test is too old; none where it never is
 * @param why why it is unknown; none where it is known
 */
public record BatteryTime(
        @Nullable Duration full,
        @Nullable Duration measured,
        Duration reserve,
        @Nullable Told<BatteryTest> test,
        @Nullable Instant goodUntil,
        @Nullable Why why) {

    private static final String UNNUMBERED = "";

    /**
     * Of a set at that instant.
     *
     * @param load part of the time that is left with a loaded filter, above 0 and at most 1; none where it is unknown
     */
    public static BatteryTime of(
            InForce rules, @Nullable BigDecimal load, ModelData model, SetFile set, Instant at, ZoneId zone) {
        return of(new Looking(at, Instant.MAX), rules, load, model, set, zone);
    }

    /** @param set none where a model alone is asked about: then the maker's figure counts */
    static BatteryTime of(Looking looking, InForce rules, ModelData model, @Nullable SetFile set, ZoneId zone) {
        return of(looking, rules, load(rules), model, set, zone);
    }

    private static BatteryTime of(
            Looking looking,
            InForce rules,
            @Nullable BigDecimal load,
            ModelData model,
            @Nullable SetFile set,
            ZoneId zone) {
        Duration reserve = reserve(rules);
        Integer maker = model.batteryMinutes();
        BatteryTime weakest = null;
        for (Told<BatteryTest> test : set == null ? List.<Told<BatteryTest>>of() : onItsBatteries(looking, set)) {
            Instant end = end(rules, test, zone);
            looking.watch(end);
            BatteryTime one = looking.isOver(end)
                    ? new BatteryTime(null, null, reserve, test, end, Why.LAPSED)
                    : measured(load, maker, reserve, test, end);
            // newest first: of two that are equally weak the older test counts, which was too old first
            weakest = weakest != null && weakest.isWeakerThan(one) ? weakest : one;
        }
        if (weakest != null) {
            return weakest;
        }
        if (set != null && interval(rules) != null) {
            return new BatteryTime(null, null, reserve, null, null, Why.NOT_TESTED);
        }
        if (maker == null) {
            return new BatteryTime(null, null, reserve, null, null, Why.MISSING);
        }
        return load == null
                ? new BatteryTime(null, null, reserve, null, null, Why.LOAD_UNKNOWN)
                : new BatteryTime(minutes(maker, load), null, reserve, null, null, null);
    }

    private static BatteryTime measured(
            @Nullable BigDecimal load,
            @Nullable Integer maker,
            Duration reserve,
            Told<BatteryTest> test,
            @Nullable Instant end) {
        int runs = maker == null
                ? test.fact().minutes()
                : Math.min(maker, test.fact().minutes());
        BigDecimal left = test.fact().filterLoaded() ? BigDecimal.ONE : load;
        return left == null
                ? new BatteryTime(null, Duration.ofMinutes(runs), reserve, test, end, Why.LOAD_UNKNOWN)
                : new BatteryTime(minutes(runs, left), Duration.ofMinutes(runs), reserve, test, end, null);
    }

    /** Unknown is weaker than any time. */
    private boolean isWeakerThan(BatteryTime other) {
        return other.full != null && (full == null || full.compareTo(other.full) < 0);
    }

    /**
     * The newest test of each battery since one was last fitted: another battery runs as long as it runs. One without a number counts
     * until a numbered one is tested; common practice, no source.
     */
    private static Collection<Told<BatteryTest>> onItsBatteries(Looking looking, SetFile set) {
        if (set.batteryTests().isEmpty()) {
            // going through the parts for a battery took a quarter of a question's time
            return List.of();
        }
        Told<PartChange> fitted = looking.latest(
                set.partChanges(), told -> told.scope() != null && PartClass.BATTERY.isNamed(told.scope()));
        Map<String, Told<BatteryTest>> newest = new LinkedHashMap<>();
        for (Told<BatteryTest> test : looking.begun(set.batteryTests())) {
            if (Judging.isAfter(test, fitted)) {
                String serial = test.fact().serial();
                newest.putIfAbsent(serial == null ? UNNUMBERED : PrintedMark.plain(serial), test);
            }
        }
        // Who numbers the batteries has numbered the one that was measured before, too, and would never measure it as
        // nameless again.
        if (newest.containsKey(UNNUMBERED) && !newest.keySet().iterator().next().equals(UNNUMBERED)) {
            newest.remove(UNNUMBERED);
        }
        return newest.values();
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

    /**
     * Part of the time that is left with a loaded filter, as the site decided, above 0 and at most 1; all of it until it does; none
     * where it decided what is no part of a whole.
     */
    public static @Nullable BigDecimal load(InForce rules) {
        InForce.Decided decided = decidedLoad(rules);
        return decided == null ? BigDecimal.ONE : decided.share();
    }

    static InForce.@Nullable Decided decidedLoad(InForce rules) {
        return rules.decision("battery.load");
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
        Duration left = Duration.ofMillis(full.toMillis() * percent / 100).minus(reserve);
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
