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
 * @param shortTerm short-term limit, same unit; none where none is published
 * @param ceiling limit never to be exceeded, same unit; none where none is published
 * @param filterLimit highest concentration for which the site's filters may be used, same unit; none where no maker states one
 */
public record Limit(
        BigDecimal value,
        String unit,
        @Nullable BigDecimal idlh,
        Set<FilterKind> filters,
        boolean airFedOnly,
        String source,
        Mark mark,
        @Nullable BigDecimal shortTerm,
        @Nullable BigDecimal ceiling,
        @Nullable BigDecimal filterLimit)
        implements Fact {

    public Limit {
        unit = AirUnit.spelled(unit);
        filters = Ordered.copy(filters);
    }

    /** A long-term limit alone. */
    public Limit(
            BigDecimal value,
            String unit,
            @Nullable BigDecimal idlh,
            Set<FilterKind> filters,
            boolean airFedOnly,
            String source,
            Mark mark) {
        this(value, unit, idlh, filters, airFedOnly, source, mark, null, null, null);
    }

    /** The limit that a result of that period is set against; none where none is published. */
    public @Nullable BigDecimal of(ExposureResult.Period period) {
        return switch (period) {
            case SHIFT -> value;
            case SHORT_TERM -> shortTerm;
            case CEILING -> ceiling;
        };
    }
}
