package org.hoodkeeper.assessment;

import java.math.BigDecimal;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.PublishedLimit;
import org.jspecify.annotations.Nullable;

/**
 * The flow that is asked of a set: the maker's minimum, or the floor of type approval that the rule set holds for its type, 42 CFR
 * 84.175(b) and 84.179(a), where that is higher. The floor is read in the same air as the maker's figure (common practice, no source).
 *
 * @param litresPerMinute above 0
 * @param byApproval whether the floor is the higher of the two
 */
public record FlowMinimum(BigDecimal litresPerMinute, boolean byApproval) {

    /** None where the maker names no minimum: then it is unknown, whatever the floor. */
    public static @Nullable FlowMinimum of(ModelData model, InForce rules) {
        BigDecimal makers = model.minimumFlow();
        if (makers == null) {
            return null;
        }
        FlowMinimum minimum = new FlowMinimum(makers, false);
        for (PublishedLimit limit : rules.limits(PublishedLimit.Quantity.APPROVAL_FLOW)) {
            BigDecimal floor = limit.atLeast();
            if (floor != null
                    && limit.interfaces().contains(model.type())
                    && floor.compareTo(minimum.litresPerMinute) > 0) {
                minimum = new FlowMinimum(floor, true);
            }
        }
        return minimum;
    }
}
