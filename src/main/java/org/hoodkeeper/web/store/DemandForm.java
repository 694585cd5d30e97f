package org.hoodkeeper.web.store;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * How many hoods at once; stands in the address.
 *
 * @param perHood the most that one hood takes, L/min
 * @param leakage of lines and couplings, %
 */
public record DemandForm(
        @Nullable BigDecimal perHood, @Nullable BigDecimal leakage) {}
