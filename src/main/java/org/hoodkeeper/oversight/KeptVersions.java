package org.hoodkeeper.oversight;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.facts.Employment;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.TaskBasis;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.FactJson;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;

/** What the ledger holds around records, as far as it says how long they are kept: each question one statement for many records. */
@Component
class KeptVersions {

    private static final String CURRENT = """
             and not r.withdrawn
             and not exists (select 1 from ledger_record c where c.site_id = r.site_id and c.corrects = r.id)
            """;

    private final JdbcTemplate jdbc;

    KeptVersions(JdbcTemplate jdbc) {
        this.jdbc = jdbc;
    }

    /**
     * One version of a record.
     *
     * @param person whose sample it was, for exposure results
     * @param hash what is left of it after an erasure
     */
    record Version(
            UUID root,
            UUID id,
            Kind kind,
            UUID subject,
            @Nullable UUID item,
            @Nullable String scope,
            Instant from,
            @Nullable Instant until,
            Instant toldAt,
            boolean withdrawal,
            @Nullable UUID corrects,
            Map<String, Object> says,
            @Nullable String person,
            byte[] hash) {

        /** The later of the event and the telling. */
        Instant made() {
            Instant event = until == null ? from : until;
            return event.isAfter(toldAt) ? event : toldAt;
        }
    }

    /** The first of its chain, for each record of which there is one. */
    Map<UUID, UUID> roots(SiteId site, Collection<UUID> records) {
        Map<UUID, UUID> roots = new HashMap<>();
        jdbc.query(
                """
                with recursive up(given, id, corrects) as (
                    select r.id, r.id, r.corrects from ledger_record r where r.site_id = ? and r.id = any(?)
                    union all
                    select up.given, o.id, o.corrects from up
                    join ledger_record o on o.site_id = ? and o.id = up.corrects)
                select given, id from up where corrects is null""",
                row -> {
                    roots.put(row.getObject(1, UUID.class), row.getObject(2, UUID.class));
                },
                site.value(),
                array(records),
                site.value());
        return roots;
    }

    /** Every version of each chain, the first first. */
    Map<UUID, List<Version>> chains(SiteId site, Collection<UUID> roots) {
        Map<UUID, List<Version>> chains = new LinkedHashMap<>();
        jdbc.query(
                """
                with recursive down(root, id) as (
                    select r.id, r.id from ledger_record r where r.site_id = ? and r.id = any(?)
                    union all
                    select down.root, c.id from down join ledger_record c on c.site_id = ? and c.corrects = down.id)
                select down.root, r.id, r.kind, r.subject, r.item, r.scope, r.true_from, r.true_until, r.recorded_at, r.withdrawn,
                       r.corrects, r.body::text, p.content ->> 'person', r.hash
                from down join ledger_record r on r.site_id = ? and r.id = down.id
                left join ledger_private p on p.site_id = r.site_id and p.record_id = r.id
                order by r.recorded_at, r.id""",
                row -> {
                    Version version = version(row);
                    chains.computeIfAbsent(version.root(), any -> new ArrayList<>())
                            .add(version);
                },
                site.value(),
                array(roots),
                site.value(),
                site.value());
        return chains;
    }

    private static Version version(ResultSet row) throws SQLException {
        Timestamp until = row.getTimestamp(8);
        return new Version(
                row.getObject(1, UUID.class),
                row.getObject(2, UUID.class),
                Kind.ofNumber(row.getInt(3)),
                row.getObject(4, UUID.class),
                row.getObject(5, UUID.class),
                row.getString(6),
                row.getTimestamp(7).toInstant(),
                until == null ? null : until.toInstant(),
                row.getTimestamp(9).toInstant(),
                row.getBoolean(10),
                row.getObject(11, UUID.class),
                FactJson.values(row.getString(12)),
                row.getString(13),
                row.getBytes(14));
    }

    /**
     * Firsts of their chains, of a kind and true before an instant, the oldest first.
     *
     * @param after those behind this one; none for all
     */
    List<UUID> oldest(SiteId site, Kind kind, Erasures.@Nullable Place after, Instant before, int most) {
        return jdbc.queryForList(
                """
                select r.id from ledger_record r
                where r.site_id = ? and r.kind = ? and (r.true_from, r.id) > (?, ?) and r.true_from < ? and r.corrects is null
                order by r.true_from, r.id limit ?""",
                UUID.class,
                site.value(),
                kind.number(),
                utc(after == null ? Instant.EPOCH.minus(Duration.ofDays(40_000)) : after.from()),
                after == null ? new UUID(0, 0) : after.record().value(),
                utc(before),
                most);
    }

    /** When the last entry about each subject was made, over some kinds; exposure results left out. */
    Map<UUID, Instant> lastEntries(SiteId site, Collection<Kind> kinds, Collection<UUID> subjects) {
        return instants("""
                select r.subject, max(greatest(r.true_from, r.true_until, r.recorded_at)) from ledger_record r
                where r.site_id = ? and r.kind = any(?) and r.subject = any(?) group by r.subject""", site.value(), numbers(kinds), array(subjects));
    }

    /** As {@link #lastEntries}, of the exposure results of a task that tell of nobody. */
    Map<UUID, Instant> lastOfTasks(SiteId site, Collection<UUID> tasks) {
        return instants("""
                select r.subject, max(greatest(r.true_from, r.recorded_at)) from ledger_record r
                left join ledger_private p on p.site_id = r.site_id and p.record_id = r.id
                where r.site_id = ? and r.kind = ? and r.subject = any(?) and p.content ->> 'person' is null
                group by r.subject""", site.value(), Kind.EXPOSURE_RESULT.number(), array(tasks));
    }

    private Map<UUID, Instant> instants(String sql, Object... arguments) {
        Map<UUID, Instant> found = new HashMap<>();
        jdbc.query(
                sql,
                row -> {
                    found.put(row.getObject(1, UUID.class), row.getTimestamp(2).toInstant());
                },
                arguments);
        return found;
    }

    /** When the last exposure result of each person was made, by the person's number. */
    Map<String, Instant> lastOfPersons(SiteId site, Collection<String> persons) {
        Map<String, Instant> found = new HashMap<>();
        jdbc.query(
                """
                select p.content ->> 'person', max(greatest(r.true_from, r.recorded_at)) from ledger_record r
                join ledger_private p on p.site_id = r.site_id and p.record_id = r.id
                where r.site_id = ? and r.kind = ? and p.content ->> 'person' = any(?) group by 1""",
                row -> {
                    found.put(row.getString(1), row.getTimestamp(2).toInstant());
                },
                site.value(),
                Kind.EXPOSURE_RESULT.number(),
                persons.toArray(String[]::new));
        return found;
    }

    /** The last day of employment of those who have left, as known now. */
    Map<UUID, LocalDate> leavers(SiteId site, Collection<UUID> workers) {
        Map<UUID, LocalDate> left = new HashMap<>();
        jdbc.query(
                "select distinct on (r.subject) r.subject, r.body::text from ledger_record r"
                        + " where r.site_id = ? and r.kind = ? and r.subject = any(?)" + CURRENT
                        + " order by r.subject, r.true_from desc, r.recorded_at desc, r.id desc",
                row -> {
                    LocalDate last =
                            FactJson.read(row.getString(2), Employment.class).lastDay();
                    if (last != null) {
                        left.put(row.getObject(1, UUID.class), last);
                    }
                },
                site.value(),
                Kind.EMPLOYMENT.number(),
                array(workers));
        return left;
    }

    /** When the next record of its kind, subject and scope that stands was made, for each that has one. */
    Map<UUID, Instant> next(SiteId site, Collection<Version> stated) {
        Map<UUID, Instant> found = new HashMap<>();
        jdbc.query(
                """
                select v.id, greatest(n.true_from, n.recorded_at)
                from unnest(?::uuid[], ?::int[], ?::uuid[], ?::text[], ?::timestamptz[]) v(id, kind, subject, scope, true_from)
                join lateral (
                    select r.true_from, r.recorded_at from ledger_record r
                    where r.site_id = ? and r.subject = v.subject and r.kind = v.kind and r.true_from > v.true_from
                      and r.scope is not distinct from v.scope and not r.withdrawn
                      and not exists (select 1 from ledger_record c where c.site_id = r.site_id and c.corrects = r.id)
                    order by r.true_from limit 1) n on true""",
                row -> {
                    found.put(row.getObject(1, UUID.class), row.getTimestamp(2).toInstant());
                },
                stated.stream().map(Version::id).toArray(UUID[]::new),
                stated.stream().map(one -> one.kind().number()).toArray(Integer[]::new),
                stated.stream().map(Version::subject).toArray(UUID[]::new),
                stated.stream().map(Version::scope).toArray(String[]::new),
                stated.stream().map(one -> one.from().toString()).toArray(String[]::new),
                site.value());
        return found;
    }

    /** Records that a standing one names as the one that it ends, out of those given. */
    Set<UUID> ended(SiteId site, Collection<UUID> records) {
        return set(
                "select r.item from ledger_record r where r.site_id = ? and r.item = any(?)" + CURRENT,
                site.value(),
                array(records));
    }

    /** Which of some records are there. */
    Set<UUID> present(SiteId site, Collection<UUID> records) {
        return set(
                "select r.id from ledger_record r where r.site_id = ? and r.id = any(?)", site.value(), array(records));
    }

    /** Sets that were ever kept for emergencies. */
    Set<UUID> emergencySets(SiteId site, Collection<UUID> sets) {
        return set("""
                select r.subject from ledger_record r
                where r.site_id = ? and r.kind = ? and r.subject = any(?) and r.body ->> 'emergency' = 'true'""", site.value(), Kind.SET.number(), array(sets));
    }

    /** The last examination of each set that stands. */
    Map<UUID, Instant> examined(SiteId site, Collection<UUID> sets) {
        return instants(
                "select r.subject, max(r.true_from) from ledger_record r where r.site_id = ? and r.kind = ? and r.subject = any(?)"
                        + CURRENT + " group by r.subject",
                site.value(),
                Kind.EXAMINATION.number(),
                array(sets));
    }

    /** The first day whose results the assessment of a task in force rests on, where it names one. */
    Map<UUID, LocalDate> resultsSince(SiteId site, Collection<UUID> tasks, Instant at) {
        Map<UUID, LocalDate> found = new HashMap<>();
        jdbc.query(
                "select distinct on (r.subject) r.subject, r.body::text from ledger_record r"
                        + " where r.site_id = ? and r.kind = ? and r.subject = any(?) and r.true_from <= ?" + CURRENT
                        + " order by r.subject, r.true_from desc, r.recorded_at desc, r.id desc",
                row -> {
                    LocalDate since =
                            FactJson.read(row.getString(2), TaskBasis.class).resultsSince();
                    if (since != null) {
                        found.put(row.getObject(1, UUID.class), since);
                    }
                },
                site.value(),
                Kind.TASK_BASIS.number(),
                array(tasks),
                utc(at));
        return found;
    }

    private Set<UUID> set(String sql, Object... arguments) {
        return new HashSet<>(jdbc.queryForList(sql, UUID.class, arguments));
    }

    private static UUID[] array(Collection<UUID> ids) {
        return ids.toArray(UUID[]::new);
    }

    private static Integer[] numbers(Collection<Kind> kinds) {
        return kinds.stream().map(Kind::number).toArray(Integer[]::new);
    }

    private static OffsetDateTime utc(Instant instant) {
        return instant.atOffset(ZoneOffset.UTC);
    }
}
