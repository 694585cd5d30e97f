package org.hoodkeeper.facts;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * What lies on the shelf of one lot of a thing, counted; the scope is the thing's code. What was reckoned until then no longer
 * counts.
 *
 * @param lot none for pieces without one
 * @param pieces 0 to 100,000
 * @param lastDay as for {@link StockReceipt}; none leaves what was known
 */
public record StockCount(
        @Nullable String lot, int pieces, @Nullable LocalDate lastDay) implements Fact {}
