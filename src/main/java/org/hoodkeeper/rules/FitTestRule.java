package org.hoodkeeper.rules;

import java.math.BigDecimal;
import java.util.Set;
import org.hoodkeeper.facts.InterfaceType;
import org.jspecify.annotations.Nullable;

/**
 * When a fit test is passed.
 *
 * @param reading how the exercises of a quantitative test are read
 * @param level least fit factor that passes, itself included
 * @param qualitative whether a qualitative test may be used
 * @param qualitativeUpTo the highest protection factor that may be relied on after a qualitative test; none where it is not
 *     bounded
 */
public record FitTestRule(
        Set<InterfaceType> interfaces,
        Reading reading,
        BigDecimal level,
        Qualitative qualitative,
        @Nullable BigDecimal qualitativeUpTo,
        Provenance provenance,
        InForceDays inForce) {

    /** How the exercises are read. */
    public enum Reading {
        OVERALL,
        EVERY_EXERCISE
    }

    /** Whether a test by taste or smell may be used. */
    public enum Qualitative {
        ALLOWED,
        NOT_ALLOWED
    }

    public FitTestRule {
        interfaces = Set.copyOf(interfaces);
    }
}
