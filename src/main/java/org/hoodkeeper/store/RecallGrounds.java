package org.hoodkeeper.store;

import java.time.Instant;
import java.util.Collection;
import java.util.HashMap;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.calculation.parts.PartTrace;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.FactJson;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;

/** Reads what a recall is held against, as known now. */
@Component
class RecallGrounds {

    /** Beyond every record: the newest always counts. */
    private static final Instant FOR_EVER = Instant.parse("9999-01-01T00:00:00Z");

    /** The newest of each that has begun, and since when there is one. */
    private static final String NEWEST = """
            select distinct on (r.subject) r.subject, r.body::text, min(r.true_from) over (partition by r.subject)
            from ledger_record r
            where r.site_id = ? and r.kind = ? and not r.withdrawn and r.true_from <= service_now()
              and (?::uuid[] is null or r.subject = any(?::uuid[]))
              and not exists (select 1 from ledger_record c where c.site_id = r.site_id and c.corrects = r.id)
            order by r.subject, r.true_from desc, r.recorded_at desc, r.id desc""";

    private final JdbcTemplate jdbc;
    private final PartHistory history;

    RecallGrounds(JdbcTemplate jdbc, PartHistory history) {
        this.jdbc = jdbc;
        this.history = history;
    }

    /** @param some none for every set of the site */
    RecallGround of(SiteId site, @Nullable Collection<SetId> some) {
        UUID[] ids = some == null ? null : some.stream().map(SetId::value).toArray(UUID[]::new);
        Map<SetId, SetData> sets = new HashMap<>();
        Map<SetId, Instant> received = new HashMap<>();
        jdbc.query(
                NEWEST,
                row -> {
                    SetId set = new SetId(row.getObject(1, UUID.class));
                    sets.put(set, FactJson.read(row.getString(2), SetData.class));
                    received.put(set, row.getTimestamp(3).toInstant());
                },
                site.value(),
                Kind.SET.number(),
                ids,
                ids);
        Map<ModelId, ModelData> models = new HashMap<>();
        jdbc.query(
                NEWEST,
                row -> {
                    models.put(
                            new ModelId(row.getObject(1, UUID.class)),
                            FactJson.read(row.getString(2), ModelData.class));
                },
                site.value(),
                Kind.MODEL.number(),
                null,
                null);
        PartTrace trace = some == null ? history.ofAll(site, FOR_EVER) : history.of(site, some, FOR_EVER);
        return new RecallGround(sets, received, models, trace);
    }
}
