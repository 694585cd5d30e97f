package org.hoodkeeper.oversight;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.UUID;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.sql.DataSource;
import org.hoodkeeper.access.AuditEntry;
import org.hoodkeeper.access.AuditTrail;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Viewer;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.namedparam.MapSqlParameterSource;
import org.springframework.jdbc.core.namedparam.NamedParameterJdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Who did what on a site, newest first: the site's audit trail, the entries of its record, and what its people did at the door of
 * the service. A sign-in belongs to no site; it stands in the trail of each site on which that account holds a role, or held one
 * then. One by a name that nobody has stands in all of them.
 */
@Service
public class Trail {

    /** Stands for an entry of the record: it is its own proof, and is written nowhere twice. */
    static final String TOLD = "record.told";

    /** Records of an entry that are looked at one by one; a file brings more. */
    private static final int FEW = 50;

    private static final int AT_ONCE = 500;

    private static final String OF_SITE = """
            select e.recorded_at as at, e.event_id as id, e.kind, e.actor, e.subject, e.source, e.detail, 0 as records, 'SITE' as chain
            from audit_event e
            where e.site_id = :site and e.recorded_at >= :from and e.recorded_at < :until""";

    private static final String OF_SERVICE = """
            select e.recorded_at, e.event_id, e.kind, e.actor, e.subject, e.source, e.detail, 0, 'SERVICE'
            from service_audit_event e
            where e.recorded_at >= :from and e.recorded_at < :until
              and (e.actor in (select h.account_id from account_role h where h.site_id = :site)
                or exists (select 1 from audit_event t where t.site_id = :site and t.kind = 'role.taken'
                     and t.subject = e.actor and t.recorded_at >= e.recorded_at)
                or e.actor is null and e.kind = 'signIn.refused')""";

    private static final String OF_RECORD = """
            select e.recorded_at, e.id, 'record.told', e.account_id, null, null, e.via, e.records, 'RECORD'
            from ledger_entry e
            where e.site_id = :site and e.recorded_at >= :from and e.recorded_at < :until""";

    private static final String LINES = """
            select t.*, a.name, a.login, told.kinds, told.about, told.record,
              case t.chain
                when 'RECORD' then ledger_position(:site, t.id)
                when 'SITE' then (select s.position from audit_seal s where s.site_id = :site and s.until > t.at
                    order by s.until limit 1)
                else (select s.position from service_audit_seal s where s.until > t.at order by s.until limit 1)
              end as position
            from (%s order by at desc, id desc %s) t
            left join account a on a.account_id = t.actor
            left join lateral (
                select string_agg(distinct r.kind::text, ',') as kinds, (array_agg(r.subject order by r.id))[1] as about,
                    (array_agg(r.id order by r.id))[1] as record
                from ledger_record r
                where r.site_id = :site and r.entry_id = t.id and t.records between 1 and :few) told on true
            order by t.at desc, t.id desc""";

    private final NamedParameterJdbcTemplate jdbc;
    private final AuditTrail audit;

    Trail(DataSource dataSource, AuditTrail audit) {
        JdbcTemplate inPieces = new JdbcTemplate(dataSource);
        inPieces.setFetchSize(AT_ONCE);
        this.jdbc = new NamedParameterJdbcTemplate(inPieces);
        this.audit = audit;
    }

    /** Which chain links an event: the record's, the site's audit trail's, or that of the service's own trail. */
    public enum Link {
        RECORD,
        SITE,
        SERVICE
    }

    /**
     * @param sorts none for every sort that the reader may see
     * @param who part of a name or sign-in name; none for everybody
     * @param about ids of what it concerns; null for anything, empty for nothing that exists
     * @param until excluded
     */
    public record Asked(
            Set<TrailSort> sorts,
            @Nullable String who,
            @Nullable Set<UUID> about,
            Instant from,
            Instant until,
            @Nullable Text text) {}

    /**
     * Looked for in codes and addresses of the net as it was typed, and in words by the kinds whose words hold it.
     *
     * @param kinds kinds of event
     * @param records kinds of record
     */
    public record Text(String typed, Set<String> kinds, Set<Kind> records) {}

    /**
     * @param actor the name of whoever did it; null for nobody known
     * @param login their sign-in name
     * @param about id of what it was done to
     * @param source where on the net it came from
     * @param detail codes that say more
     * @param records how many records an entry holds; 0 for an event
     * @param kinds of these, where they are few
     * @param record the first of these
     * @param link in which chain it hangs
     * @param position of its seal; null as long as it is not sealed
     */
    public record Line(
            Instant at,
            UUID id,
            String kind,
            @Nullable String actor,
            @Nullable String login,
            @Nullable UUID about,
            @Nullable String source,
            @Nullable String detail,
            int records,
            List<Kind> kinds,
            @Nullable UUID record,
            Link link,
            @Nullable Long position) {}

    /** @param first how many of the newest to leave out */
    @Transactional(readOnly = true)
    public List<Line> lines(Viewer viewer, Asked asked, int first, int most) {
        String query = LINES.formatted(fitting(viewer, asked), "limit :most offset :first");
        return jdbc.query(
                query,
                parameters(viewer, asked).addValue("most", most).addValue("first", first),
                (row, n) -> line(row));
    }

    @Transactional(readOnly = true)
    public long count(Viewer viewer, Asked asked) {
        Long count = jdbc.queryForObject(
                "select count(*) from (" + fitting(viewer, asked) + ") t", parameters(viewer, asked), Long.class);
        return count == null ? 0 : count;
    }

    /** Passes all on, one after the other; that they were taken out is written down first. */
    @Transactional
    public void take(Viewer viewer, Asked asked, Consumer<Line> each) {
        audit.record(
                viewer.site(),
                AuditEntry.of("trail.exported").by(viewer.account()).saying(asked.from() + "/" + asked.until()));
        jdbc.query(LINES.formatted(fitting(viewer, asked), ""), parameters(viewer, asked), row -> {
            each.accept(line(row));
        });
    }

    private static String fitting(Viewer viewer, Asked asked) {
        List<TrailSort> open = TrailSort.openTo(viewer);
        if (open.isEmpty()) {
            throw new Refused("trail.notYours");
        }
        boolean all = asked.sorts().isEmpty() && open.size() == TrailSort.values().length;
        String kind = all ? "" : " and e.kind in (:kinds)";
        String who = asked.who() == null
                ? ""
                : " in (select w.account_id from account w where lower(w.name) like :who or w.login like :who)";
        String event = kind
                + (who.isEmpty() ? "" : " and e.actor" + who)
                + (asked.about() == null ? "" : " and e.subject = any(string_to_array(:about, ',')::uuid[])")
                + (asked.text() == null
                        ? ""
                        : " and (e.kind in (:textKinds) or lower(e.detail) like :text or lower(e.source) like :text)");
        List<String> parts = new ArrayList<>(List.of(OF_SITE + event, OF_SERVICE + event));
        if (sorts(viewer, asked).contains(TrailSort.WRITE)) {
            parts.add(OF_RECORD
                    + (who.isEmpty() ? "" : " and e.account_id" + who)
                    + (asked.about() == null ? "" : " and e.id in (" + CONCERNING + ")")
                    + (asked.text() == null ? "" : " and ('record.told' in (:textKinds) or " + OF_KIND + ")"));
        }
        return String.join(" union all ", parts);
    }

    private static final String CONCERNING = """
            select r.entry_id from ledger_record r where r.site_id = :site
              and r.subject = any(string_to_array(:about, ',')::uuid[])
            union select r.entry_id from ledger_record r where r.site_id = :site
              and r.item = any(string_to_array(:about, ',')::uuid[])""";

    private static final String OF_KIND = """
            exists (select 1 from ledger_record r where r.site_id = :site and r.entry_id = e.id and r.kind in (:textRecords))""";

    private static Set<TrailSort> sorts(Viewer viewer, Asked asked) {
        Set<TrailSort> open = new LinkedHashSet<>(TrailSort.openTo(viewer));
        if (!asked.sorts().isEmpty()) {
            open.retainAll(asked.sorts());
        }
        return open;
    }

    private static MapSqlParameterSource parameters(Viewer viewer, Asked asked) {
        MapSqlParameterSource parameters = new MapSqlParameterSource()
                .addValue("site", viewer.site().value())
                .addValue("from", asked.from().atOffset(ZoneOffset.UTC))
                .addValue("until", asked.until().atOffset(ZoneOffset.UTC))
                .addValue("few", FEW)
                .addValue(
                        "kinds",
                        orNone(sorts(viewer, asked).stream()
                                .flatMap(sort -> sort.kinds().stream())
                                .collect(Collectors.toSet())))
                .addValue("who", asked.who() == null ? null : holding(asked.who()))
                .addValue(
                        "about",
                        asked.about() == null
                                ? null
                                : asked.about().stream().map(UUID::toString).collect(Collectors.joining(",")));
        Text text = asked.text();
        if (text != null) {
            parameters
                    .addValue("text", holding(text.typed()))
                    .addValue("textKinds", orNone(text.kinds()))
                    .addValue(
                            "textRecords",
                            text.records().isEmpty()
                                    ? Set.of(0)
                                    : text.records().stream().map(Kind::number).collect(Collectors.toSet()));
        }
        return parameters;
    }

    /** A list in SQL holds something. */
    private static Set<String> orNone(Set<String> kinds) {
        return kinds.isEmpty() ? Set.of("-") : kinds;
    }

    private static String holding(String typed) {
        return "%" + typed.strip().toLowerCase(Locale.ROOT).replaceAll("([\\\\%_])", "\\\\$1") + "%";
    }

    private static Line line(ResultSet row) throws SQLException {
        String kinds = row.getString("kinds");
        UUID subject = row.getObject("subject", UUID.class);
        long position = row.getLong("position");
        boolean sealed = !row.wasNull();
        return new Line(
                row.getTimestamp("at").toInstant(),
                row.getObject("id", UUID.class),
                row.getString("kind"),
                row.getString("name"),
                row.getString("login"),
                subject == null ? row.getObject("about", UUID.class) : subject,
                row.getString("source"),
                row.getString("detail"),
                row.getInt("records"),
                kinds == null
                        ? List.of()
                        : Stream.of(kinds.split(","))
                                .map(number -> Kind.ofNumber(Integer.parseInt(number)))
                                .toList(),
                row.getObject("record", UUID.class),
                Link.valueOf(row.getString("chain")),
                sealed ? position : null);
    }
}
