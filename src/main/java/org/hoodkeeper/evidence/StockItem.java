package org.hoodkeeper.evidence;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import org.hoodkeeper.calculation.stock.Spares;
import org.jspecify.annotations.Nullable;

/**
 * A thing that the store keeps, by lot.
 *
 * @param lots that may be put to use, the one to take first in front: earliest last day first, those without one last
 * @param expired that may not; they do not count
 * @param used pieces used in {@code days}, the discarded left out
 * @param days over how many days use is known, at most 180
 * @param leadDays how long a delivery takes, days: the longest of the last five whose order day is on record (common practice, no
 *     source); none where none is
 * @param level wanted probability that the stock lasts until the delivery
 */
public record StockItem(
        String code,
        List<StockLot> lots,
        List<StockLot> expired,
        int used,
        int days,
        @Nullable Integer leadDays,
        double level) {

    /** Use over fewer days says too little. Common practice, no source. */
    static final int FEWEST_DAYS = 28;

    /** A thing of which none is used can last for ever. */
    private static final int LONGEST = 3_650;

    public StockItem {
        lots = List.copyOf(lots);
        expired = List.copyOf(expired);
    }

    /** Pieces that may be put to use. */
    public int usable() {
        return lots.stream().mapToInt(StockLot::pieces).sum();
    }

    /** Pieces over their day. */
    public int expiredPieces() {
        return expired.stream().mapToInt(StockLot::pieces).sum();
    }

    /** The lot to take next; none where there is nothing to take. */
    public @Nullable StockLot next() {
        return lots.stream().filter(lot -> lot.pieces() > 0).findFirst().orElse(null);
    }

    /** Whether more was taken of a lot than was ever taken in. */
    public boolean isToCount() {
        return lots.stream().anyMatch(lot -> lot.pieces() < 0)
                || expired.stream().anyMatch(lot -> lot.pieces() < 0);
    }

    public boolean isUseKnown() {
        return days >= FEWEST_DAYS;
    }

    /** Pieces in thirty days, one decimal; none where use is known for too few days. */
    public @Nullable BigDecimal inThirtyDays() {
        return isUseKnown()
                ? BigDecimal.valueOf(used * 30L).divide(BigDecimal.valueOf(days), 1, RoundingMode.HALF_UP)
                : null;
    }

    /** The stock at which to order again (Poisson); none where use or the time of a delivery is unknown. */
    public @Nullable Integer reorderAt() {
        return isUseKnown() && leadDays != null ? Spares.reorderPoint((double) used * leadDays / days, level) : null;
    }

    /** Whether to order today. Nothing is said where the reorder point is unknown. */
    public boolean isToOrder() {
        Integer point = reorderAt();
        return point != null && usable() <= point && used > 0;
    }

    /** How many whole days the usable stock lasts at the usual use; none where that is unknown or nothing is used. */
    public @Nullable Integer lasts() {
        return isUseKnown() && used > 0 ? (int) Math.min(LONGEST, Math.max(0, (long) usable() * days / used)) : null;
    }
}
