package org.hoodkeeper.calculation.wash;

import java.math.BigDecimal;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Parts that go together, and how.
 *
 * @param parts their names, in the order of the basket
 * @param hottest the lowest of their temperature limits; none where none has one
 * @param products what all of them bear for as long as it needs, in the order given; the contact time is the product's own
 * @param methods what all of them allow
 */
public record WashLoad(
        List<String> parts, @Nullable BigDecimal hottest, List<Disinfectant> products, Set<WashMethod> methods) {

    public WashLoad {
        parts = List.copyOf(parts);
        products = List.copyOf(products);
        methods = Set.copyOf(methods);
    }

    /** Whether there is any proper way to disinfect it. */
    public boolean isPossible() {
        return !products.isEmpty() && !methods.isEmpty();
    }
}
