package org.hoodkeeper.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.History;
import org.jspecify.annotations.Nullable;

/** What the record says of sets and models at a time, as known now. Each is read once: not to be kept beyond one question. */
final class DataThen {

    /** More versions than the data of a set or model ever gets. */
    private static final int MOST = 2_000;

    private final History history;
    private final SiteId site;
    private final Instant now;
    private final Map<Id, List<Told<?>>> newestFirst = new HashMap<>();

    DataThen(History history, SiteId site, Instant now) {
        this.history = history;
        this.site = site;
        this.now = now;
    }

    @Nullable SetData set(SetId set, Instant at) {
        return at(set, Kind.SET, SetData.class, at);
    }

    @Nullable ModelData model(SetId set, Instant at) {
        SetData of = set(set, at);
        return of == null ? null : model(of.model(), at);
    }

    @Nullable ModelData model(ModelId model, Instant at) {
        return at(model, Kind.MODEL, ModelData.class, at);
    }

    /** What was so then; before the first record the first counts, for a file may begin before the site did. */
    private <F extends Fact> @Nullable F at(Id subject, Kind kind, Class<F> type, Instant at) {
        Fact found = null;
        for (Told<?> told : newestFirst.computeIfAbsent(subject, any -> current(subject, kind))) {
            found = told.fact();
            if (!told.from().isAfter(at)) {
                break;
            }
        }
        return found == null ? null : type.cast(found);
    }

    private List<Told<?>> current(Id subject, Kind kind) {
        List<Told<?>> current = new ArrayList<>();
        for (History.Version version : history.of(site, subject, Set.of(kind), now, MOST)) {
            if (version.isCurrent()) {
                current.add(version.told());
            }
        }
        return current;
    }
}
