package org.hoodkeeper.rules;

import java.math.BigDecimal;
import java.util.Set;
import org.hoodkeeper.facts.InterfaceType;

/**
 * The protection that a rule set assigns to a class of device, provided that the programme around it works.
 *
 * @param deviceClass the class as it stands on the model for this rule set
 * @param interfaces the interface types that can be of this class; never empty
 * @param factor times the limit, above 0
 */
public record ProtectionFactor(
        String deviceClass,
        Set<InterfaceType> interfaces,
        BigDecimal factor,
        Provenance provenance,
        InForceDays inForce) {

    public ProtectionFactor {
        interfaces = Set.copyOf(interfaces);
    }
}
