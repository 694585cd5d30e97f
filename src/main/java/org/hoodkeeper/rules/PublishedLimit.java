package org.hoodkeeper.rules;

import java.math.BigDecimal;
import java.util.Set;
import org.hoodkeeper.facts.InterfaceType;
import org.jspecify.annotations.Nullable;

/**
 * A figure that a source sets for air or flow, both ends included.
 *
 * @param code unique in the rule set
 * @param atLeast lower end; none where open
 * @param atMost upper end; none where open
 * @param unit of both ends
 */
public record PublishedLimit(
        String code,
        Quantity quantity,
        Set<InterfaceType> interfaces,
        @Nullable BigDecimal atLeast,
        @Nullable BigDecimal atMost,
        String unit,
        Provenance provenance,
        InForceDays inForce) {

    /** What is limited. */
    public enum Quantity {
        /** Oxygen in the air of the place, below which a filter is of no use. */
        OXYGEN_AT_PLACE,
        /** Type-approval floor of a blown or supplied flow; a model's own minimum may be higher. */
        APPROVAL_FLOW,
        SUPPLIED_OXYGEN,
        SUPPLIED_CARBON_MONOXIDE,
        SUPPLIED_CARBON_DIOXIDE,
        SUPPLIED_OIL,
        /** How far the dew point must lie below the lowest temperature of use. */
        SUPPLIED_DEW_POINT_MARGIN,
        /** Dew point at one atmosphere of air from a cylinder. */
        CYLINDER_DEW_POINT
    }

    public PublishedLimit {
        interfaces = Set.copyOf(interfaces);
    }

    public boolean allows(BigDecimal value) {
        return (atLeast == null || value.compareTo(atLeast) >= 0) && (atMost == null || value.compareTo(atMost) <= 0);
    }
}
