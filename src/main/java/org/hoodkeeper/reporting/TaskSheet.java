package org.hoodkeeper.reporting;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.hoodkeeper.assessment.AirPart;
import org.hoodkeeper.assessment.Weighed;
import org.hoodkeeper.calculation.BetweenWorkers;
import org.hoodkeeper.calculation.ComplianceTest;
import org.hoodkeeper.calculation.ExposureStatistics;
import org.hoodkeeper.calculation.MaximumUse;
import org.hoodkeeper.calculation.NormalityTest;
import org.hoodkeeper.calculation.ProbabilityPlot;
import org.hoodkeeper.calculation.Proportion;
import org.hoodkeeper.facts.ExposureResult;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.Provenance;
import org.jspecify.annotations.Nullable;

/**
 * The assessment of one task at a moment, with all it rests on.
 *
 * @param basis the assessment in force; none before the first
 * @param assessor who signed it
 * @param note what the assessor wrote beside it
 * @param whyBelow why the assessor stated less than the results say; none where nothing was said
 * @param isOver the assessment should have been reviewed before
 * @param ruleSet code and version of the rule set in force
 * @param statistic which figure of the results decides
 * @param decided the site's decision on it; none where the default counts
 * @param air each substance against each of its limits; empty without an assessment
 * @param ratio how many times the air exceeds its limit; none where that is unknown
 * @param stated the same by the assessment alone, without the results since
 * @param weighed what is stated of each substance beside what the results sampled by then say; empty without an assessment
 * @param replaced results that the assessment could have in mind and that were corrected or withdrawn since, oldest first
 * @param unjudged peaks that were measured, and for which no limit of their period is in force
 * @param samples by substance and group, with at least one result of a whole shift
 * @param classes every class of the rule set that may be worn at the task and protects enough, weakest first; a class does not
 *     tell whether its filter stops every substance
 * @param models the site's models
 * @param seen how often on rounds the device was off or lifted, of how many looks; none where nobody looked
 */
public record TaskSheet(
        String task,
        Moment moment,
        @Nullable Told<TaskBasis> basis,
        @Nullable String assessor,
        @Nullable String note,
        @Nullable String whyBelow,
        boolean isOver,
        String ruleSet,
        ExposureStatistics.Statistic statistic,
        InForce.@Nullable Decided decided,
        List<AirPart> air,
        @Nullable BigDecimal ratio,
        @Nullable BigDecimal stated,
        List<Weighed> weighed,
        List<Replaced> replaced,
        List<Unjudged> unjudged,
        List<Samples> samples,
        List<ClassLine> classes,
        List<ModelLine> models,
        @Nullable Proportion seen) {

    /**
     * A result that was weighed, and is no longer what is on record.
     *
     * @param at when it was sampled
     * @param value as it stood then, in {@code unit}
     * @param withdrawn it was taken back, not stated anew
     * @param replacedAt when that was told
     */
    public record Replaced(
            RecordId id,
            String substance,
            Instant at,
            BigDecimal value,
            String unit,
            boolean withdrawn,
            Instant replacedAt) {}

    /** Peaks that are set against nothing. @param highest of {@code count} results */
    public record Unjudged(String substance, ExposureResult.Period period, Told<ExposureResult> highest, int count) {}

    /**
     * What the results of one substance and group say.
     *
     * @param limitValue what is left of the long-term limit on the task's shift; none without a limit, or where units differ
     * @param results oldest first
     * @param statistics none where there are too few; {@code refused} then says why
     * @param compliance whether the air itself complies; none below three results, without a limit, or where {@code refused} says why
     * @param fit none where any result is below detection
     * @param workers how far the people sampled differ; none where that cannot be told, {@code workersRefused} then says why
     * @param laboratories who analysed the samples, as far as it was said
     */
    public record Samples(
            String substance,
            @Nullable String group,
            @Nullable Told<Limit> limit,
            @Nullable BigDecimal limitValue,
            List<Told<ExposureResult>> results,
            @Nullable ExposureStatistics statistics,
            @Nullable Refused refused,
            @Nullable ComplianceTest compliance,
            @Nullable NormalityTest fit,
            @Nullable BetweenWorkers workers,
            @Nullable Refused workersRefused,
            List<String> laboratories,
            List<ProbabilityPlot.Point> points) {}

    /** @param margin factor ÷ ratio, two decimals, rounded down */
    public record ClassLine(
            String deviceClass,
            Set<InterfaceType> interfaces,
            BigDecimal factor,
            BigDecimal margin,
            Provenance provenance,
            List<String> models) {}

    /** How a model stands to the air of the task. */
    public enum Stand {
        ENOUGH,
        FACTOR_SHORT,
        IMMEDIATELY_DANGEROUS,
        BEYOND_FILTER,
        FILTER_SHORT,
        AIR_FED_ONLY,
        NOT_FOR_TASK,
        CLASS_UNKNOWN,
        UNKNOWN;

        public boolean isEnough() {
            return this == ENOUGH;
        }
    }

    /**
     * @param factor none where the rule set does not know the model's class
     * @param use the lowest maximum use concentration over the substances, with its substance and unit; none where that is not
     *     known, or where a substance is let through
     * @param letsThrough its filter does not stop one of the substances, or none does: no concentration is low enough for it
     * @param unwornMinutes how long it may be off in eight hours before it no longer protects enough; 0 where it never does
     * @param inPractice the factor that is left with the device off as often as it was seen off; none where nobody looked
     * @param longestWear the site's longest wear in one shift; none where the site set none
     * @param batteryMinutes running time; none where there is no battery
     * @param filterUse the site's longest use of a filter of it; none where the site set none
     * @param filterOpened the site's longest time from opening; none where the site set none
     */
    public record ModelLine(
            ModelId id,
            String code,
            InterfaceType type,
            Set<String> sizes,
            InForce.@Nullable Factor factor,
            Stand stand,
            @Nullable Use use,
            boolean letsThrough,
            int unwornMinutes,
            @Nullable BigDecimal inPractice,
            @Nullable String longestWear,
            @Nullable Integer batteryMinutes,
            InForce.@Nullable Decided filterUse,
            InForce.@Nullable Decided filterOpened) {}

    public record Use(MaximumUse most, String substance, String unit) {}

    /** The codes of the models that are enough. */
    public Set<String> enough() {
        return models.stream()
                .filter(line -> line.stand().isEnough())
                .map(ModelLine::code)
                .collect(Collectors.toCollection(LinkedHashSet::new));
    }

    /** What decides over a shift of a substance; none where it is not in the air that is judged. */
    public @Nullable AirPart shift(String substance) {
        return air.stream()
                .filter(part -> part.period() == ExposureResult.Period.SHIFT
                        && part.substance().equals(substance))
                .findFirst()
                .orElse(null);
    }

    /** The statistic of these results is the figure that decides: not the assessment's, nor another group's. */
    public boolean isDecidedBy(Samples samples) {
        AirPart part = shift(samples.substance());
        return part != null
                && part.origin() == AirPart.Origin.RESULTS
                && samples.statistics() != null
                && samples.statistics().deciding(statistic).compareTo(part.value()) == 0;
    }

    /** The sheet must be reviewed by the end of that day; none where no day is set. */
    public @Nullable LocalDate reviewBy() {
        return basis == null ? null : basis.fact().lastDay();
    }

    /** The newest result that moved the air beyond what the assessment states; none where none did. */
    public @Nullable Told<ExposureResult> movedBy() {
        Told<ExposureResult> newest = null;
        for (AirPart part : air) {
            Told<ExposureResult> by = part.movedBy();
            if (by != null && (newest == null || by.from().isAfter(newest.from()))) {
                newest = by;
            }
        }
        return newest;
    }
}
