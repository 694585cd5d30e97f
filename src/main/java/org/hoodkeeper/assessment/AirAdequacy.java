package org.hoodkeeper.assessment;

import java.math.BigDecimal;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.hoodkeeper.calculation.Adequacy;
import org.hoodkeeper.calculation.Exposure;
import org.hoodkeeper.calculation.HazardRatio;
import org.hoodkeeper.calculation.MixtureEffect;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.TaskBasis;

/** A task's air set against a factor. */
public final class AirAdequacy {

    private AirAdequacy() {}

    /** The worst ratio over the shift, the peaks and the ceiling; the parts have their limits. */
    public static HazardRatio ratio(List<AirPart> parts, TaskBasis basis) {
        return TaskAir.byPeriod(parts).values().stream()
                .map(period -> HazardRatio.of(exposures(period, Caps.NONE), effect(basis)))
                .max(Comparator.comparing(HazardRatio::value))
                .orElseThrow();
    }

    /** @param parts of one period, none without its limit; the filter's limit counts where room air is filtered */
    public static Adequacy of(List<AirPart> parts, TaskBasis basis, BigDecimal factor, InterfaceType type) {
        return Adequacy.of(exposures(parts, type.filtersRoomAir() ? Caps.FILTER : Caps.NONE), effect(basis), factor);
    }

    private enum Caps {
        NONE,
        FILTER
    }

    private static List<Exposure> exposures(List<AirPart> parts, Caps caps) {
        return parts.stream().map(part -> exposure(part, caps)).toList();
    }

    private static Exposure exposure(AirPart part, Caps caps) {
        Limit limit = Objects.requireNonNull(part.limit()).fact();
        return new Exposure(
                part.substance(),
                part.value(),
                Objects.requireNonNull(part.limitValue()),
                limit.idlh(),
                caps == Caps.FILTER ? limit.filterLimit() : null);
    }

    /** Where nobody knows how they act together, they add up. */
    public static MixtureEffect effect(TaskBasis basis) {
        return basis.mixture() == TaskBasis.Mixture.INDEPENDENT ? MixtureEffect.INDEPENDENT : MixtureEffect.ADDITIVE;
    }
}
