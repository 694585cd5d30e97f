package org.hoodkeeper.facts;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * A delivery of one thing that the store keeps; the scope is its code, for instance a part's.
 *
 * @param lot none where none is printed on it
 * @param pieces 1 to 100,000
 * @param lastDay the last day on which it may be put to use, by what is printed on it; none where nothing is printed
 * @param orderedOn when it was ordered, from which the store learns how long a delivery takes; none where unknown
 * @param delivery supplier and delivery note
 */
public record StockReceipt(
        @Nullable String lot,
        int pieces,
        @Nullable LocalDate lastDay,
        @Nullable LocalDate orderedOn,
        @Nullable String delivery)
        implements Fact {}
