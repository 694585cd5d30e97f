package org.hoodkeeper.facts;

import java.math.BigDecimal;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What the part in one place of a set bears when it is cleaned, by its maker. Where it says nothing, what the maker says of the
 * whole model counts.
 *
 * @param maxCelsius hottest water, degrees Celsius; none where the model's own counts
 * @param products the disinfectants that it bears; empty where it bears all of the model's
 * @param methods how it may be cleaned; empty where every way is allowed
 * @param cycles washes that it bears at most, counted from its fitting; none where the maker sets no limit
 * @param neverWashed it is pulled before the set goes into the basket
 */
public record PartCare(
        @Nullable BigDecimal maxCelsius,
        List<Bears> products,
        Set<Bath> methods,
        @Nullable Integer cycles,
        boolean neverWashed) {

    /** How far a cleaning goes, the gentlest first. */
    public enum Bath {
        WIPE,
        SPRAY,
        HAND_WASH,
        IMMERSION,
        MACHINE_WASH
    }

    /** A product that the part bears. @param longest longest wet time, seconds; none for any */
    public record Bears(String code, @Nullable Integer longest) {}

    /** Whether that product may stay on it so long, seconds. */
    public boolean bears(String product, int wetSeconds) {
        return products.isEmpty()
                || products.stream()
                        .anyMatch(one ->
                                one.code().equals(product) && (one.longest() == null || one.longest() >= wetSeconds));
    }

    public PartCare {
        products = products == null ? List.of() : List.copyOf(products);
        methods = Ordered.copy(methods);
    }
}
