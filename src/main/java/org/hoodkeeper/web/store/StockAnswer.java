package org.hoodkeeper.web.store;

import java.time.Instant;
import org.hoodkeeper.evidence.Stock;
import org.hoodkeeper.evidence.StockLot;
import org.hoodkeeper.kernel.SiteId;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Says before a part is fitted what that means for the store, where it keeps that part. */
@Component
class StockAnswer {

    private final Stock stock;

    StockAnswer(Stock stock) {
        this.stock = stock;
    }

    void say(Answers.Lines lines, SiteId site, @Nullable String part, @Nullable String typedLot, Instant at) {
        if (part == null || typedLot == null || !stock.keeps(site, part, at)) {
            return;
        }
        StockLot lot = stock.lot(site, part, typedLot, at);
        if (lot == null) {
            lines.answered("part.stock", "half", "part.stock.STRANGER");
        } else if (lot.expired()) {
            lines.answered("part.stock", "barred", "part.stock.EXPIRED", lot.lastDay());
        } else if (lot.pieces() < 1) {
            lines.answered("part.stock", "half", "part.stock.NONE");
        } else {
            lines.answered("part.stock", "clear", "part.stock.KNOWN", lot.pieces());
        }
    }
}
