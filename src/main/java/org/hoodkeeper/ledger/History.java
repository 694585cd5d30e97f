package org.hoodkeeper.ledger;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SiteId;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/** Whole histories, with everything that was corrected or withdrawn: for the files of a person or a set, never for boards. */
@Component
@Transactional(readOnly = true)
public class History {

    private static final String SELECT = """
            select r.id, r.kind, r.subject, r.item, r.scope, r.true_from, r.true_until, r.recorded_at, r.corrects, r.withdrawn,
                   r.source_id, r.body::text, p.content::text, e.account_id, c.id, c.withdrawn
            from ledger_record r
            join ledger_entry e on e.site_id = r.site_id and e.id = r.entry_id
            left join ledger_private p on p.site_id = r.site_id and p.record_id = r.id
            left join ledger_record c on c.site_id = r.site_id and c.corrects = r.id and c.recorded_at <= ?
            """;

    private final JdbcTemplate jdbc;

    History(JdbcTemplate jdbc) {
        this.jdbc = jdbc;
    }

    /**
     * One version of a record, with who told it and what became of it.
     *
     * @param told the record with its names and free text: show {@link Kind#isMedical()} kinds only to those who may see them
     * @param toldBy the account that told it
     * @param withdrawal it does not state anything; it takes back the record that it corrects
     * @param because why it corrects another
     * @param replacedBy the later version, where there is one as known then
     */
    public record Version(
            Kind kind,
            Told<?> told,
            AccountId toldBy,
            boolean withdrawal,
            @Nullable String because,
            @Nullable RecordId replacedBy,
            @Nullable String sourceId) {

        public boolean isCurrent() {
            return replacedBy == null && !withdrawal;
        }
    }

    /** Every version about a subject or naming it as second party, newest first, as known then. */
    public List<Version> of(SiteId site, Id subject, Instant knownAt, int most) {
        return jdbc.query(
                SELECT + """
                        where r.site_id = ? and (r.subject = ? or r.item = ?) and (r.recorded_at <= ?) is true
                        order by r.true_from desc, r.recorded_at desc limit ?""",
                History::version,
                utc(knownAt),
                site.value(),
                subject.value(),
                subject.value(),
                utc(knownAt),
                most);
    }

    /** Every version of some kinds about a subject, newest first, as known then. */
    public List<Version> of(SiteId site, Id subject, Collection<Kind> kinds, Instant knownAt, int most) {
        return jdbc.query(
                SELECT + """
                        where r.site_id = ? and r.subject = ? and r.kind = any(?) and (r.recorded_at <= ?) is true
                        order by r.true_from desc, r.recorded_at desc, r.id desc limit ?""",
                History::version,
                utc(knownAt),
                site.value(),
                subject.value(),
                numbers(kinds),
                utc(knownAt),
                most);
    }

    /** Every version of a kind with one of these as second party, newest first, as known then. */
    public List<Version> with(SiteId site, Kind kind, Collection<UUID> items, Instant knownAt) {
        return jdbc.query(
                SELECT + """
                        where r.site_id = ? and r.item = any(?) and r.kind = ? and (r.recorded_at <= ?) is true
                        order by r.true_from desc, r.recorded_at desc, r.id desc""",
                History::version,
                utc(knownAt),
                site.value(),
                items.toArray(UUID[]::new),
                kind.number(),
                utc(knownAt));
    }

    /**
     * Every version of a kind that names an id in one of its fields, from an instant on, newest first, as known then.
     *
     * @param field of the fact, for instance {@code instrument}
     */
    public List<Version> naming(
            SiteId site, Kind kind, String field, Id named, Instant from, Instant knownAt, int most) {
        return jdbc.query(
                SELECT + """
                        where r.site_id = ? and r.kind = ? and r.true_from >= ? and r.body ->> ? = ? and r.recorded_at <= ?
                        order by r.true_from desc, r.recorded_at desc, r.id desc limit ?""",
                History::version,
                utc(knownAt),
                site.value(),
                kind.number(),
                utc(from),
                field,
                named.value().toString(),
                utc(knownAt),
                most);
    }

    /**
     * Which records of a site are looked for; withdrawals are not, they stand beside what they take back.
     *
     * @param about subjects or second parties; none for whatever they are about
     * @param from when they were true, included
     * @param until excluded
     */
    public record Search(
            Collection<Kind> kinds, @Nullable Collection<UUID> about, Instant from, Instant until, Only only) {}

    /** What of them. */
    public enum Only {
        ALL,
        /** Corrected or withdrawn since. */
        REPLACED,
        /** Told after it was true, and no correction: who asks decides whether that is late. */
        AFTERWARDS
    }

    private static final String FITS = """
            where r.site_id = ? and r.kind = any(?) and r.recorded_at <= ? and not r.withdrawn and r.true_from >= ? and r.true_from < ?
              and case ? when 'REPLACED' then c.id is not null
                         when 'AFTERWARDS' then r.corrects is null and r.recorded_at > r.true_from
                         else true end
            """;

    /** Only where it is asked: a condition that may be empty lets no index by subject be used, and reads the site's history. */
    private static final String ABOUT = "and (r.subject = any(?) or r.item = any(?)) ";

    private static String fits(Search search) {
        return search.about() == null ? FITS : FITS + ABOUT;
    }

    /** The records that are looked for, newest first, as known then. */
    public List<Version> search(SiteId site, Search search, Instant knownAt, int before, int most) {
        return jdbc.query(
                SELECT + fits(search) + "order by r.true_from desc, r.recorded_at desc, r.id desc offset ? limit ?",
                History::version,
                Stream.concat(sought(site, search, knownAt), Stream.of(before, most))
                        .toArray());
    }

    /** How many they are. */
    public int count(SiteId site, Search search, Instant knownAt) {
        Integer count = jdbc.queryForObject(
                """
                select count(*) from ledger_record r
                left join ledger_record c on c.site_id = r.site_id and c.corrects = r.id and c.recorded_at <= ?
                """ + fits(search), Integer.class, sought(site, search, knownAt).toArray());
        return count == null ? 0 : count;
    }

    private static Stream<Object> sought(SiteId site, Search search, Instant knownAt) {
        Stream<Object> always = Stream.of(
                utc(knownAt),
                site.value(),
                numbers(search.kinds()),
                utc(knownAt),
                utc(search.from()),
                utc(search.until()),
                search.only().name());
        if (search.about() == null) {
            return always;
        }
        UUID[] about = search.about().toArray(UUID[]::new);
        return Stream.concat(always, Stream.of(about, about));
    }

    /** Every version of some kinds that was true by then, newest first, as known then. */
    public List<Version> of(SiteId site, Collection<Kind> kinds, Instant knownAt, int most) {
        return jdbc.query(
                SELECT + """
                        where r.site_id = ? and r.kind = any(?) and r.recorded_at <= ?
                        order by r.true_from desc, r.recorded_at desc, r.id desc limit ?""", History::version, utc(knownAt), site.value(), numbers(kinds), utc(knownAt), most);
    }

    /** What was true within a period about subjects or naming them as second party, as known then; the newest first. */
    public List<Version> within(
            SiteId site, Collection<UUID> about, Instant from, Instant until, Instant knownAt, int most) {
        UUID[] ids = about.toArray(UUID[]::new);
        return jdbc.query(
                SELECT + """
                        where r.site_id = ? and (r.subject = any(?) or r.item = any(?)) and (r.recorded_at <= ?) is true
                          and r.true_from < ?
                          and (r.true_until > ? or (r.true_until is null and r.true_from >= ?))
                        order by r.true_from desc, r.recorded_at desc, r.id desc limit ?""",
                History::version,
                utc(knownAt),
                site.value(),
                ids,
                ids,
                utc(knownAt),
                utc(until),
                utc(from),
                utc(from),
                most);
    }

    /**
     * What was told in a time, later than {@code after} until {@code until}, about something that was true by {@code trueBy}, or
     * that replaced such a record; the newest told first. A calibration speaks of readings before it, so each counts.
     *
     * @param about subjects and second parties; empty for the whole site
     * @param without kinds to leave out
     */
    public List<Version> toldBetween(
            SiteId site,
            Instant after,
            Instant until,
            Instant trueBy,
            Collection<UUID> about,
            Collection<Kind> without,
            int most) {
        return toldBetween("", site, after, until, trueBy, about, without, most);
    }

    /** As {@link #toldBetween(SiteId, Instant, Instant, Instant, Collection, Collection, int)}, corrections and withdrawals alone. */
    public List<Version> correctedBetween(
            SiteId site, Instant after, Instant until, Instant trueBy, Collection<UUID> about, int most) {
        return toldBetween(" and r.corrects is not null", site, after, until, trueBy, about, List.of(), most);
    }

    private List<Version> toldBetween(
            String also,
            SiteId site,
            Instant after,
            Instant until,
            Instant trueBy,
            Collection<UUID> about,
            Collection<Kind> without,
            int most) {
        UUID[] ids = about.toArray(UUID[]::new);
        return jdbc.query(
                SELECT + """
                        where r.site_id = ? and e.recorded_at > ? and e.recorded_at <= ? and r.kind <> all(?)
                          and (r.true_from <= ? or r.kind = ? or exists (
                              select 1 from ledger_record o
                              where o.site_id = r.site_id and o.id = r.corrects and o.true_from <= ?))
                          and (cardinality(?::uuid[]) = 0 or r.subject = any(?) or r.item = any(?))""" + also + " order by r.recorded_at desc, r.id desc limit ?",
                History::version,
                utc(until),
                site.value(),
                utc(after),
                utc(until),
                numbers(without),
                utc(trueBy),
                Kind.CALIBRATION.number(),
                utc(trueBy),
                ids,
                ids,
                ids,
                most);
    }

    /** One record, or none. */
    public @Nullable Version find(SiteId site, RecordId id, Instant knownAt) {
        List<Version> found = jdbc.query(
                SELECT + "where r.site_id = ? and r.id = ?", History::version, utc(knownAt), site.value(), id.value());
        return found.isEmpty() ? null : found.get(0);
    }

    /** Some records, the newest first. */
    public List<Version> those(SiteId site, Collection<UUID> ids, Instant knownAt) {
        return jdbc.query(
                SELECT + """
                        where r.site_id = ? and r.id = any(?) and r.recorded_at <= ?
                        order by r.true_from desc, r.recorded_at desc, r.id desc""", History::version, utc(knownAt), site.value(), ids.toArray(UUID[]::new), utc(knownAt));
    }

    /** Every version of some kinds about some subjects, newest first, as known then. */
    public List<Version> ofEach(
            SiteId site, Collection<UUID> subjects, Collection<Kind> kinds, Instant knownAt, int most) {
        return jdbc.query(
                SELECT + """
                        where r.site_id = ? and r.subject = any(?) and r.kind = any(?) and (r.recorded_at <= ?) is true
                        order by r.true_from desc, r.recorded_at desc, r.id desc limit ?""",
                History::version,
                utc(knownAt),
                site.value(),
                subjects.toArray(UUID[]::new),
                numbers(kinds),
                utc(knownAt),
                most);
    }

    private static Integer[] numbers(Collection<Kind> kinds) {
        return kinds.stream().map(Kind::number).toArray(Integer[]::new);
    }

    private static Object utc(Instant instant) {
        return Ledger.utc(instant);
    }

    private static Version version(ResultSet row, int n) throws SQLException {
        Kind kind = Kind.ofNumber(row.getInt(2));
        String hidden = row.getString(13);
        Fact fact = hidden == null
                ? FactJson.read(row.getString(12), kind.type())
                : FactJson.read(row.getString(12), hidden, kind.type());
        Timestamp until = row.getTimestamp(7);
        UUID corrects = row.getObject(9, UUID.class);
        UUID replacedBy = row.getObject(15, UUID.class);
        Told<Fact> told = new Told<>(
                new RecordId(row.getObject(1, UUID.class)),
                row.getObject(3, UUID.class),
                row.getObject(4, UUID.class),
                row.getString(5),
                Ledger.instant(row.getTimestamp(6)),
                until == null ? null : until.toInstant(),
                Ledger.instant(row.getTimestamp(8)),
                corrects == null ? null : new RecordId(corrects),
                fact);
        return new Version(
                kind,
                told,
                new AccountId(row.getObject(14, UUID.class)),
                row.getBoolean(10),
                hidden == null ? null : FactJson.because(hidden),
                replacedBy == null ? null : new RecordId(replacedBy),
                row.getString(11));
    }
}
