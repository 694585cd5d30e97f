package org.hoodkeeper.facts;

import java.math.BigDecimal;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * An exposure limit as the site applies it; the scope is the substance. A limit that changes on a day leaves the past alone.
 *
 * @param value long-term limit in {@code unit}
 * @param idlh concentration immediately dangerous, same unit
 * @param filters what a filter must stop; all of these
 * @param airFedOnly no filter may be relied on
 * @param source where the figure is published
 * @param mark how well the figure is vouched for
 */
public record Limit(
        BigDecimal value,
        String unit,
        @Nullable BigDecimal idlh,
        Set<FilterKind> filters,
        boolean airFedOnly,
        String source,
        Mark mark)
        implements Fact {

    public Limit {
        filters = Ordered.copy(filters);
    }
}
