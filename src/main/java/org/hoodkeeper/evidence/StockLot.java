package org.hoodkeeper.evidence;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * One lot of a thing that the store keeps.
 *
 * @param lot none for pieces without one
 * @param pieces what is left by the records; below none where more was taken than was ever taken in: count it
 * @param lastDay last day of use; none where none is known
 * @param expired whether that day is over
 */
public record StockLot(
        @Nullable String lot, int pieces, @Nullable LocalDate lastDay, boolean expired) {}
