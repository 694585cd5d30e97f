package org.hoodkeeper.calculation.wash;

import java.math.BigDecimal;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What a part bears, from its maker's data. What is not listed is not allowed.
 *
 * @param name tells it from the other parts of the basket
 * @param hottest hottest water, degrees Celsius; none where the maker sets no limit
 * @param products the disinfectants it bears, each with the longest wet time, seconds; {@link #NO_LIMIT} for any
 * @param methods how it may be cleaned
 */
public record WashedPart(
        String name, @Nullable BigDecimal hottest, Map<String, Integer> products, Set<WashMethod> methods) {

    /** A wet time without a limit. */
    public static final int NO_LIMIT = Integer.MAX_VALUE;

    public WashedPart {
        products = Map.copyOf(products);
        methods = Set.copyOf(methods);
    }

    /** Whether the product may stay on it as long as the product needs. */
    boolean bears(Disinfectant product) {
        Integer longest = products.get(product.code());
        return longest != null && longest >= product.wetSeconds();
    }
}
