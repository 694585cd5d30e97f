package org.hoodkeeper.evidence;

import java.time.Instant;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Limit;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
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
    private final Known known;
    private final StatedFigures figures;

    Limits(Telling telling, Known known, StatedFigures figures) {
        this.telling = telling;
        this.known = known;
        this.figures = figures;
    }

    /** What is held of a substance, as known now and even where it begins later; none where nothing is. */
    @Transactional(readOnly = true)
    public @Nullable Limit newest(SiteId site, String substance) {
        return known.newest(site, Limit.class, Kind.LIMIT, site).stream()
                .filter(told -> substance.equals(told.scope()))
                .map(Told::fact)
                .findFirst()
                .orElse(null);
    }

    /**
     * @param from from when it counts, which may lie ahead; the past keeps its limit
     * @throws Refused when its shape is wrong: {@link Accept#fact}; {@code limit.substance.missing}; as
     *     {@link FiguresOnRecord#require(String, Limit, Instant)}
     */
    public RecordId record(Author author, String substance, Limit limit, Instant from, @Nullable String sourceId) {
        Shape.present(substance, "limit.substance.missing");
        Shape.name(substance, "substance");
        Accept.fact(limit);
        figures.of(author.site()).require(substance, limit, from);
        return telling.tell(
                author, Draft.of(limit, author.site(), from).scope(substance).source(sourceId));
    }
}
