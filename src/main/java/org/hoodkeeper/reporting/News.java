package org.hoodkeeper.reporting;

import java.sql.Timestamp;
import java.time.Duration;
import java.time.Instant;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicInteger;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.SiteId;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;

/** Whom and what the records of a time are about, those that they correct included. */
@Component
class News {

    /** With more records than that everybody is judged anew. */
    private static final int MOST = 20_000;

    /** So many entries are gone through for the few among them that speak of an earlier time. */
    private static final int MOST_ENTRIES = 500_000;

    /**
     * From time to entry and from entry to record through an index each: with a plan for any time the database would take a
     * third of the ledger for news, and read all of it. Of what is told about the site itself only limits and decisions concern
     * everybody; a step of a batch concerns the sets that were stripped for it.
     */
    private static final String TOLD = """
            select case when r.subject = e.site_id and r.kind <> all(:everybodys) then null else r.subject end, r.item,
                case when c.subject = e.site_id and c.kind <> all(:everybodys) then null else c.subject end, c.item, w.item,
                e.gone
            from (select e.site_id, e.id, row_number() over (order by e.recorded_at, e.id) > :entries as gone
                  from ledger_entry e where e.site_id = ? and e.recorded_at >= ? and e.recorded_at <= ?
                  order by e.recorded_at, e.id limit :entries + 1) e
            cross join lateral (select r.subject, r.item, r.corrects, r.kind, r.scope from ledger_record r
                                where r.site_id = e.site_id and r.entry_id = e.id and (:which or e.gone) offset 0) r
            left join lateral (select c.subject, c.item, c.kind from ledger_record c
                               where c.site_id = e.site_id and c.id = r.corrects offset 0) c on true
            left join lateral (select w.item from ledger_record w
                               where r.kind = :wash and r.item is null and w.kind = :wash and w.site_id = e.site_id
                                 and w.scope = r.scope and w.item is not null offset 0) w on true
            limit :most""".replace(
                    ":everybodys", "'{" + Kind.LIMIT.number() + "," + Kind.SITE_DECISION.number() + "}'::smallint[]")
            .replace(":wash", String.valueOf(Kind.WASH_STEP.number()))
            .replace(":most", String.valueOf(MOST + 1));

    private static final String SINCE =
            TOLD.replace(":entries", String.valueOf(MOST)).replace(":which", "true");

    /** What corrects may speak of any time, and so does a calibration of the readings before it. */
    private static final String OF_EARLIER = TOLD.replace(":entries", String.valueOf(MOST_ENTRIES))
            .replace(":which", "r.true_from <= ? or r.corrects is not null or r.kind = " + Kind.CALIBRATION.number());

    private static final Instant FURTHEST = Instant.parse("9999-01-01T00:00:00Z");

    private final JdbcTemplate jdbc;

    News(JdbcTemplate jdbc) {
        this.jdbc = jdbc;
    }

    /** @return empty when there are more records than a look reads, however few things they are about */
    Optional<Set<UUID>> since(SiteId site, Instant since) {
        return read(SINCE, site.value(), Timestamp.from(since), Timestamp.from(FURTHEST));
    }

    /**
     * What was told after a moment and may turn what holds then.
     *
     * @param until told by then
     * @param trueBy what begins later turns nothing, unless it speaks of what was before it
     * @return empty when there is more than a look reads
     */
    Optional<Set<UUID>> of(SiteId site, Instant after, Instant until, Instant trueBy) {
        // the database keeps whole microseconds
        Instant from = after.plus(Duration.ofNanos(1_000));
        return read(OF_EARLIER, site.value(), Timestamp.from(from), Timestamp.from(until), Timestamp.from(trueBy));
    }

    private Optional<Set<UUID>> read(String sql, Object... arguments) {
        Set<UUID> told = new HashSet<>();
        AtomicInteger records = new AtomicInteger();
        jdbc.query(
                sql,
                row -> {
                    records.addAndGet(row.getBoolean(6) ? MOST + 1 : 1);
                    for (int column = 1; column <= 5; column++) {
                        UUID id = row.getObject(column, UUID.class);
                        if (id != null) {
                            told.add(id);
                        }
                    }
                },
                arguments);
        return records.get() > MOST ? Optional.empty() : Optional.of(told);
    }
}
