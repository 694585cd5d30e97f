package org.hoodkeeper.assessment;

import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.hoodkeeper.calculation.Adequacy;
import org.hoodkeeper.calculation.Exposure;
import org.hoodkeeper.calculation.HazardRatio;
import org.hoodkeeper.calculation.MaximumUse;
import org.hoodkeeper.calculation.MixtureEffect;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.rules.InForce;

/** A task's air set against a factor. */
public final class AirAdequacy {

    private AirAdequacy() {}

    /** What cuts a concentration down, whatever the factor. */
    private enum Cap {
        IDLH,
        FILTER
    }

    /** The worst ratio over the shift, the peaks and the ceiling; the parts have their limits. */
    public static HazardRatio ratio(List<AirPart> parts, TaskBasis basis) {
        return TaskAir.byPeriod(parts).values().stream()
                .map(period -> HazardRatio.of(exposures(period, Set.of()), effect(basis)))
                .max(Comparator.comparing(HazardRatio::value))
                .orElseThrow();
    }

    /**
     * Whether what is known of the air is more than the factor covers. Parts that cannot be set against their limit are left out, so
     * that the whole is at least as bad.
     */
    public static boolean isShort(List<AirPart> parts, TaskBasis basis, InForce.Factor factor) {
        List<AirPart> known =
                parts.stream().filter(part -> part.problem() == null).toList();
        return !known.isEmpty() && !ratio(known, basis).isCoveredBy(factor.value());
    }

    /**
     * @param parts of one period, none without its limit
     * @param factor of a class that may be worn in an immediately dangerous air that concentration does not cut, as no maximum
     *     use concentration is applied there: 29 CFR 1910.134(d)(3)(i)(B)(2); its factor counts all the same
     * @param type the filter's limit counts where room air is filtered
     */
    public static Adequacy of(List<AirPart> parts, TaskBasis basis, InForce.Factor factor, InterfaceType type) {
        return Adequacy.of(exposures(parts, caps(factor, type)), effect(basis), factor.value());
    }

    /** The maximum use concentration for one substance, with what cuts it; the part has its limit. */
    public static MaximumUse mostUse(AirPart part, InForce.Factor factor, InterfaceType type) {
        Exposure exposure = exposure(part, caps(factor, type));
        return MaximumUse.of(factor.value(), exposure.limit(), exposure.idlh(), exposure.filterLimit());
    }

    private static Set<Cap> caps(InForce.Factor factor, InterfaceType type) {
        Set<Cap> caps = EnumSet.noneOf(Cap.class);
        if (!factor.isForDangerousAir()) {
            caps.add(Cap.IDLH);
        }
        if (type.filtersRoomAir()) {
            caps.add(Cap.FILTER);
        }
        return caps;
    }

    private static List<Exposure> exposures(List<AirPart> parts, Set<Cap> caps) {
        return parts.stream().map(part -> exposure(part, caps)).toList();
    }

    private static Exposure exposure(AirPart part, Set<Cap> caps) {
        Limit limit = Objects.requireNonNull(part.limit()).fact();
        return new Exposure(
                part.substance(),
                part.value(),
                Objects.requireNonNull(part.limitValue()),
                caps.contains(Cap.IDLH) ? limit.idlh() : null,
                caps.contains(Cap.FILTER) ? limit.filterLimit() : null);
    }

    /** Where nobody knows how they act together, they add up. */
    public static MixtureEffect effect(TaskBasis basis) {
        return basis.mixture() == TaskBasis.Mixture.INDEPENDENT ? MixtureEffect.INDEPENDENT : MixtureEffect.ADDITIVE;
    }
}
