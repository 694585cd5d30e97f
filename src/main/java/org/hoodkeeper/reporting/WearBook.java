package org.hoodkeeper.reporting;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.TaskId;
import org.hoodkeeper.kernel.WorkerId;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.namedparam.MapSqlParameterSource;
import org.springframework.jdbc.core.namedparam.NamedParameterJdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/** Wears as known now, entry and exit put together. */
@Component
@Transactional(readOnly = true)
public class WearBook {

    private static final String CURRENT = """
            select r.id, r.subject, r.item, r.body ->> 'task', r.body ->> 'step', r.true_from, r.true_until, r.recorded_at,
                   coalesce(first.id, r.id)
            from ledger_record r
            left join lateral (
                with recursive up(id, corrects) as (
                    select o.id, o.corrects from ledger_record o where o.site_id = r.site_id and o.id = r.corrects
                    union all
                    select o.id, o.corrects from up join ledger_record o on o.site_id = :site and o.id = up.corrects)
                select up.id from up where up.corrects is null) first on r.corrects is not null
            where r.site_id = :site and r.kind = :wear and not r.withdrawn
              and r.true_from >= :from and r.true_from < :until
              and not exists (select 1 from ledger_record c where c.site_id = r.site_id and c.corrects = r.id)
            """;

    private static final String ABOUT = """
             and (r.subject = any(:ids) or r.item = any(:ids) or (r.body ->> 'task')::uuid = any(:ids)
                  or r.item in (select s.subject from ledger_record s where s.site_id = :site and s.kind = :set
                                and ((s.body ->> 'model')::uuid = any(:ids) or (s.body ->> 'supply')::uuid = any(:ids)))
                  or r.item in (select f.subject from ledger_record f where f.site_id = :site and f.kind = any(:measured)
                                and coalesce(f.body ->> 'instrument', f.body ->> 'indicator')::uuid = any(:ids)))
            """;

    private final NamedParameterJdbcTemplate jdbc;

    WearBook(NamedParameterJdbcTemplate jdbc) {
        this.jdbc = jdbc;
    }

    /** Wears that begin in a period, oldest first. */
    public List<Worn> of(SiteId site, Instant from, Instant until) {
        return read(CURRENT, parameters(site, from, until), until);
    }

    /**
     * The same for those that one of these has to do with: as worker, set or task, as the set's model or supply, or as the
     * instrument that measured it.
     */
    public List<Worn> about(SiteId site, Collection<UUID> ids, Instant from, Instant until) {
        MapSqlParameterSource parameters = parameters(site, from, until)
                .addValue("ids", ids.toArray(UUID[]::new))
                .addValue("set", Kind.SET.number())
                .addValue("measured", new Integer[] {
                    Kind.FLOW_CHECK.number(), Kind.EXAMINATION.number(), Kind.PRE_USE_CHECK.number()
                });
        return read(CURRENT + ABOUT, parameters, until);
    }

    private static MapSqlParameterSource parameters(SiteId site, Instant from, Instant until) {
        return new MapSqlParameterSource("site", site.value())
                .addValue("wear", Kind.WEAR.number())
                .addValue("from", from.atOffset(ZoneOffset.UTC))
                .addValue("until", until.plus(Worn.LONGEST).atOffset(ZoneOffset.UTC));
    }

    private record Line(
            RecordId id,
            UUID worker,
            UUID set,
            UUID task,
            String step,
            Instant from,
            @Nullable Instant until,
            Instant toldAt,
            RecordId root) {

        Worn worn(@Nullable RecordId exit, @Nullable Instant end) {
            return new Worn(id, exit, root, new WorkerId(worker), new SetId(set), new TaskId(task), from, end, toldAt);
        }
    }

    private List<Worn> read(String sql, MapSqlParameterSource parameters, Instant end) {
        List<Line> lines =
                jdbc.query(sql + " order by r.true_from, r.recorded_at, r.id", parameters, (row, n) -> line(row));
        Map<UUID, List<Line>> exits = new HashMap<>();
        for (Line line : lines) {
            if (line.step().equals("EXIT")) {
                exits.computeIfAbsent(line.worker(), any -> new ArrayList<>()).add(line);
            }
        }
        List<Worn> worn = new ArrayList<>();
        for (Line line : lines) {
            if (line.from().isBefore(end) && !line.step().equals("EXIT")) {
                Line exit =
                        line.step().equals("ENTRY") ? exit(line, exits.getOrDefault(line.worker(), List.of())) : null;
                worn.add(exit == null ? line.worn(null, line.until()) : line.worn(exit.id(), exit.from()));
            }
        }
        return worn;
    }

    private static @Nullable Line exit(Line entry, List<Line> oldestFirst) {
        return oldestFirst.stream()
                .filter(exit -> exit.from().isAfter(entry.from()) && exit.set().equals(entry.set()))
                .findFirst()
                .filter(exit -> !exit.from().isAfter(entry.from().plus(Worn.LONGEST)))
                .orElse(null);
    }

    private static Line line(ResultSet row) throws SQLException {
        Timestamp until = row.getTimestamp(7);
        return new Line(
                new RecordId(row.getObject(1, UUID.class)),
                row.getObject(2, UUID.class),
                row.getObject(3, UUID.class),
                UUID.fromString(row.getString(4)),
                row.getString(5),
                row.getTimestamp(6).toInstant(),
                until == null ? null : until.toInstant(),
                row.getTimestamp(8).toInstant(),
                new RecordId(row.getObject(9, UUID.class)));
    }
}
