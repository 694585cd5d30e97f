package org.hoodkeeper.evidence;

import java.time.Instant;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.ledger.Author;
import org.hoodkeeper.ledger.Draft;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Exposure limits as the site applies them, by substance. */
@Service
@Transactional
public class Limits {

    private final Telling telling;

    Limits(Telling telling) {
        this.telling = telling;
    }

    /**
     * @param from from when it counts, which may lie ahead; the past keeps its limit
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code limit.substance.missing}
     */
    public RecordId record(Author author, String substance, Limit limit, Instant from, @Nullable String sourceId) {
        Shape.present(substance, "limit.substance.missing");
        Shape.name(substance, "substance");
        return telling.tell(
                author, Draft.of(limit, author.site(), from).scope(substance).source(sourceId));
    }
}
