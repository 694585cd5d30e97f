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
 */
public record TaskBasis(
        List<Exposure> exposures,
        Mixture mixture,
        Atmosphere atmosphere,
        Set<InterfaceType> interfaces,
        MedicalOutcome.WorkRate workRate,
        @Nullable String statistic,
        @Nullable LocalDate lastDay,
        @Nullable String note)
        implements Fact {

    /**
     * @param substance as named in the site's limits
     * @param value concentration outside the device, in {@code unit}
     */
    public record Exposure(String substance, BigDecimal value, String unit) {}

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

    public TaskBasis {
        exposures = exposures == null ? List.of() : List.copyOf(exposures);
        interfaces = Ordered.copy(interfaces);
    }
}
