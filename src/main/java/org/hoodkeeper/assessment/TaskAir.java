package org.hoodkeeper.assessment;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.Predicate;
import org.hoodkeeper.calculation.ExposureStatistics.Statistic;
import org.hoodkeeper.calculation.OddShift;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.ExposureResult.Period;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.hoodkeeper.rules.InForce;
import org.jspecify.annotations.Nullable;

/**
 * What is in the air of a task at an instant: what its assessment states, moved up by the results sampled since.
 *
 * <p>A new result moves the figure from its sampling date. New is what was sampled since the assessment began, and what was told
 * only after the assessment was: nobody could have had it in mind, as when a laboratory takes weeks. It can only raise it: a lower figure counts once a hygienist has
 * assessed the task again, the stricter reading. With too few results for the deciding statistic the highest of the new ones
 * counts, if it lies above what is stated. Groups are worked out apart, and the worst decides. Results of substances that the
 * assessment does not name count as well. Peaks are set against the short-term limit and the ceiling one by one: the highest
 * decides. Common practice, no source, where the text of a rule is not named.
 */
public final class TaskAir {

    private final Told<TaskBasis> basis;
    private final List<Told<ExposureResult>> results;
    private final Function<String, @Nullable Told<Limit>> limits;
    private final ResultShelf shelf;
    private final Statistic statistic;

    private TaskAir(
            Told<TaskBasis> basis,
            List<Told<ExposureResult>> results,
            Function<String, @Nullable Told<Limit>> limits,
            ResultShelf shelf,
            Statistic statistic) {
        this.basis = basis;
        this.results = results;
        this.limits = limits;
        this.shelf = shelf;
        this.statistic = statistic;
    }

    /**
     * @param begun the results sampled by the instant, newest first
     * @param limits the limit in force for a substance
     */
    public static List<AirPart> of(
            Told<TaskBasis> basis,
            List<Told<ExposureResult>> begun,
            Function<String, @Nullable Told<Limit>> limits,
            ResultShelf shelf,
            InForce rules,
            ZoneId zone) {
        return new TaskAir(basis, restingOn(basis.fact(), begun, zone), limits, shelf, statistic(rules)).parts();
    }

    /** Which statistic the site decided on; without a rule set the one of EN 689. */
    public static Statistic statistic(InForce rules) {
        InForce.Decided decided = rules.decision("exposure.statistic");
        return decided == null ? Statistic.UTL95_70 : Statistic.valueOf(decided.value());
    }

    /** The results that an assessment rests on, or that have come since. */
    public static List<Told<ExposureResult>> restingOn(
            TaskBasis basis, List<Told<ExposureResult>> results, ZoneId zone) {
        if (basis.resultsSince() == null) {
            return results;
        }
        Instant since = Days.startOf(basis.resultsSince(), zone);
        return results.stream().filter(told -> !told.from().isBefore(since)).toList();
    }

    /**
     * What an assessment states beside what the results say that were sampled before it begins: each substance with at least one
     * result of a whole shift. Where the assessment leaves out every result of a substance, what is left out is set beside it.
     *
     * @param begun the results sampled by the time the assessment begins, newest first
     */
    public static List<Weighed> weighed(
            TaskBasis basis, List<Told<ExposureResult>> begun, ResultShelf shelf, InForce rules, ZoneId zone) {
        List<Told<ExposureResult>> resting = restingOn(basis, begun, zone);
        Statistic statistic = statistic(rules);
        List<Weighed> weighed = new ArrayList<>();
        for (String substance : substances(basis, begun)) {
            List<Told<ExposureResult>> rests = of(resting, substance, Period.SHIFT);
            List<Told<ExposureResult>> all = of(begun, substance, Period.SHIFT);
            if (!all.isEmpty()) {
                weighed.add(weighed(
                        stated(basis, substance),
                        substance,
                        rests.isEmpty() ? all : rests,
                        rests.isEmpty(),
                        shelf,
                        statistic));
            }
        }
        return weighed;
    }

    private static Weighed weighed(
            TaskBasis.@Nullable Exposure stated,
            String substance,
            List<Told<ExposureResult>> results,
            boolean leftOut,
            ResultShelf shelf,
            Statistic statistic) {
        String unit = results.get(0).fact().unit();
        boolean mixed = results.stream().anyMatch(told -> !told.fact().unit().equals(unit));
        Moved says = mixed ? null : worst(results, any -> true, shelf, statistic);
        return new Weighed(
                substance,
                stated,
                unit,
                says == null ? null : says.value(),
                says == null ? AirPart.Origin.HIGHEST : says.origin(),
                results,
                leftOut);
    }

    private static Set<String> substances(TaskBasis basis, List<Told<ExposureResult>> results) {
        Set<String> substances = new LinkedHashSet<>();
        basis.exposures().forEach(exposure -> substances.add(exposure.substance()));
        results.stream().map(Told::scope).filter(Objects::nonNull).sorted().forEach(substances::add);
        return substances;
    }

    private static TaskBasis.@Nullable Exposure stated(TaskBasis basis, String substance) {
        return basis.exposures().stream()
                .filter(one -> one.substance().equals(substance))
                .findFirst()
                .orElse(null);
    }

    private List<AirPart> parts() {
        List<AirPart> parts = new ArrayList<>();
        List<Told<ExposureResult>> fresh = results.stream().filter(this::isNew).toList();
        for (String substance : substances(basis.fact(), fresh)) {
            AirPart shift = shift(substance);
            if (shift != null) {
                parts.add(shift);
            }
            for (Period period : EnumSet.of(Period.SHORT_TERM, Period.CEILING)) {
                AirPart peak = peak(substance, period);
                if (peak != null) {
                    parts.add(peak);
                }
            }
        }
        return parts;
    }

    /**
     * What was told by then an assessment could have in mind. Mending a slip of it weighs no result: a corrected one was made when
     * it began, the stricter reading.
     */
    public static Instant assessed(Told<TaskBasis> basis) {
        boolean corrected = basis.corrects() != null && basis.from().isBefore(basis.recordedAt());
        return corrected ? basis.from() : basis.recordedAt();
    }

    private boolean isNew(Told<ExposureResult> told) {
        return told.from().isAfter(basis.from()) || told.recordedAt().isAfter(assessed(basis));
    }

    private @Nullable AirPart shift(String substance) {
        TaskBasis.Exposure stated = stated(basis.fact(), substance);
        List<Told<ExposureResult>> sampled = of(results, substance, Period.SHIFT);
        Told<ExposureResult> odd = inAnotherUnit(substance, stated, sampled);
        if (odd != null) {
            return part(
                    substance,
                    Period.SHIFT,
                    odd.fact().value(),
                    odd.fact().unit(),
                    stated == null ? null : stated.value(),
                    AirPart.Origin.HIGHEST,
                    odd);
        }
        Moved moved = worst(sampled, this::isNew, shelf, statistic);
        if (moved != null && (stated == null || moved.value().compareTo(stated.value()) > 0)) {
            return part(
                    substance,
                    Period.SHIFT,
                    moved.value(),
                    moved.by().fact().unit(),
                    stated == null ? null : stated.value(),
                    moved.origin(),
                    moved.by());
        }
        return stated == null
                ? null
                : part(
                        substance,
                        Period.SHIFT,
                        stated.value(),
                        stated.unit(),
                        stated.value(),
                        AirPart.Origin.ASSESSMENT,
                        null);
    }

    /** One of the results that cannot be set against the limit or the assessment; only asked where there are new ones. */
    private @Nullable Told<ExposureResult> inAnotherUnit(
            String substance, TaskBasis.@Nullable Exposure stated, List<Told<ExposureResult>> sampled) {
        if (sampled.stream().noneMatch(this::isNew)) {
            return null;
        }
        Told<Limit> limit = limits.apply(substance);
        String unit = limit == null
                ? (stated == null ? null : stated.unit())
                : limit.fact().unit();
        return sampled.stream()
                .filter(told -> unit != null && !told.fact().unit().equals(unit))
                .findFirst()
                .orElse(null);
    }

    private static List<Told<ExposureResult>> of(List<Told<ExposureResult>> results, String substance, Period period) {
        return results.stream()
                .filter(told -> substance.equals(told.scope()) && told.fact().against() == period)
                .toList();
    }

    private record Moved(BigDecimal value, AirPart.Origin origin, Told<ExposureResult> by) {}

    /** What the worst of the groups with such results comes to; none where there is none. */
    private static @Nullable Moved worst(
            List<Told<ExposureResult>> sampled,
            Predicate<Told<ExposureResult>> such,
            ResultShelf shelf,
            Statistic statistic) {
        Map<String, List<Told<ExposureResult>>> groups = new TreeMap<>();
        sampled.forEach(told -> groups.computeIfAbsent(
                        told.fact().group() == null ? "" : told.fact().group(), any -> new ArrayList<>())
                .add(told));
        Moved worst = null;
        for (List<Told<ExposureResult>> group : groups.values()) {
            List<Told<ExposureResult>> fresh = group.stream().filter(such).toList();
            if (fresh.isEmpty()) {
                continue;
            }
            Moved moved = shelf.deciding(group, statistic)
                    .map(value -> new Moved(value, AirPart.Origin.RESULTS, fresh.get(0)))
                    .orElseGet(() -> highest(fresh));
            if (moved != null && (worst == null || moved.value().compareTo(worst.value()) > 0)) {
                worst = moved;
            }
        }
        return worst;
    }

    private static @Nullable Moved highest(List<Told<ExposureResult>> of) {
        Moved highest = null;
        for (Told<ExposureResult> told : of) {
            boolean higher = highest == null || told.fact().value().compareTo(highest.value()) > 0;
            if (!told.fact().belowDetection() && higher) {
                highest = new Moved(told.fact().value(), AirPart.Origin.HIGHEST, told);
            }
        }
        return highest;
    }

    private @Nullable AirPart peak(String substance, Period period) {
        Told<Limit> limit = limits.apply(substance);
        List<Told<ExposureResult>> sampled = of(results, substance, period);
        Moved highest = sampled.stream()
                .filter(told ->
                        limit != null && !told.fact().unit().equals(limit.fact().unit()))
                .findFirst()
                .map(odd -> new Moved(odd.fact().value(), AirPart.Origin.HIGHEST, odd))
                .orElseGet(() -> highest(sampled));
        return highest == null || limit == null || limit.fact().of(period) == null
                ? null
                : part(
                        substance,
                        period,
                        highest.value(),
                        highest.by().fact().unit(),
                        null,
                        AirPart.Origin.HIGHEST,
                        highest.by());
    }

    private AirPart part(
            String substance,
            Period period,
            BigDecimal value,
            String unit,
            @Nullable BigDecimal stated,
            AirPart.Origin origin,
            @Nullable Told<ExposureResult> movedBy) {
        Told<Limit> limit = limits.apply(substance);
        Why problem = limit == null ? Why.LIMIT_UNKNOWN : limit.fact().unit().equals(unit) ? null : Why.UNIT_DIFFERS;
        BigDecimal figure = limit == null ? null : limit.fact().of(period);
        return new AirPart(
                substance,
                period,
                value,
                unit,
                stated,
                origin,
                movedBy,
                limit,
                figure == null ? null : period == Period.SHIFT ? figure.multiply(shareOfLimit()) : figure,
                problem);
    }

    private BigDecimal shareOfLimit() {
        return shareOfLimit(basis.fact());
    }

    /** What a task's shift leaves of a long-term limit: above 0, at most 1. */
    public static BigDecimal shareOfLimit(TaskBasis basis) {
        if (basis.shiftHours() == null || basis.longShift() == null) {
            return BigDecimal.ONE;
        }
        OddShift rule =
                switch (basis.longShift()) {
                    case NONE -> OddShift.NONE;
                    case BRIEF_SCALA -> OddShift.BRIEF_SCALA;
                    case PROPORTIONAL -> OddShift.PROPORTIONAL;
                };
        return rule.of(basis.shiftHours());
    }

    /** By period, in the order of the parts. */
    static Map<Period, List<AirPart>> byPeriod(List<AirPart> parts) {
        Map<Period, List<AirPart>> periods = new LinkedHashMap<>();
        parts.forEach(part ->
                periods.computeIfAbsent(part.period(), any -> new ArrayList<>()).add(part));
        return periods;
    }
}
