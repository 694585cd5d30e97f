package org.hoodkeeper.facts;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The exposure assessment of a task: what is in the air, how much of it, and what that rules out.
 *
 * @param exposures each substance with the exposure that the site's chosen statistic gives
 * @param mixture whether effects add up; unknown is treated as additive
 * @param atmosphere what the air itself rules out
 * @param interfaces the types that may be used; empty means every adequate one
 * @param workRate how hard the work is
 * @param statistic which statistic the exposures are
 * @param lastDay the last day before the assessment must be reviewed
 * @param resultsSince the first day whose results it rests on; none means all. Older ones are of another way of working
 * @param shiftHours length of the shift; none means eight hours
 * @param longShift what a longer shift leaves of the long-term limits; none means all of them
 * @param assessor who signs it
 * @param whyBelow why less is stated than the results on record say; none where it is not less
 */
public record TaskBasis(
        List<Exposure> exposures,
        Mixture mixture,
        Atmosphere atmosphere,
        Set<InterfaceType> interfaces,
        MedicalOutcome.WorkRate workRate,
        @Nullable String statistic,
        @Nullable LocalDate lastDay,
        @Nullable String note,
        @Nullable LocalDate resultsSince,
        @Nullable BigDecimal shiftHours,
        @Nullable LongShift longShift,
        @Nullable String assessor,
        @Nullable String whyBelow)
        implements Fact {

    /**
     * @param substance as named in the site's limits
     * @param value concentration outside the device, in {@code unit}
     */
    public record Exposure(String substance, BigDecimal value, String unit) {

        public Exposure {
            unit = AirUnit.spelled(unit);
        }
    }

    public enum Mixture {
        ADDITIVE,
        INDEPENDENT
    }

    public enum Atmosphere {
        ORDINARY,
        /** Immediately dangerous to life or health: never a hood, never a filter. */
        IDLH,
        OXYGEN_DEFICIENT,
        /** Cannot be identified or estimated: treated as IDLH. */
        UNKNOWN
    }

    /** What is left of a long-term limit on a shift of more than eight hours. */
    public enum LongShift {
        /** All of it: the average is over eight hours whatever the shift. */
        NONE,
        /** Less for the longer exposure and for the shorter rest. */
        BRIEF_SCALA,
        /** Eight hours ÷ the shift. */
        PROPORTIONAL
    }

    /** An assessment for shifts of eight hours, on all results, that states no less than these say. */
    public TaskBasis(
            List<Exposure> exposures,
            Mixture mixture,
            Atmosphere atmosphere,
            Set<InterfaceType> interfaces,
            MedicalOutcome.WorkRate workRate,
            @Nullable String statistic,
            @Nullable LocalDate lastDay,
            @Nullable String note) {
        this(
                exposures,
                mixture,
                atmosphere,
                interfaces,
                workRate,
                statistic,
                lastDay,
                note,
                null,
                null,
                null,
                null,
                null);
    }

    public TaskBasis {
        exposures = exposures == null ? List.of() : List.copyOf(exposures);
        interfaces = Ordered.copy(interfaces);
    }
}
