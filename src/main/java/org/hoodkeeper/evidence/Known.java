package org.hoodkeeper.evidence;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.UUID;
import org.hoodkeeper.facts.Calibration;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.SetData;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.InstrumentId;
import org.hoodkeeper.kernel.ModelId;
import org.hoodkeeper.kernel.NotFound;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.FactJson;
import org.hoodkeeper.programme.RuleShelf;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.rules.SiteRules;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;

/** What a door must know to judge a record: as known now, without anything that was corrected or withdrawn, names left out. */
@Component
class Known {

    /** More calibrations of one instrument, or decisions of one site, than anyone makes. */
    private static final int MOST = 5_000;

    private static final String CURRENT = """
            select r.id, r.subject, r.item, r.scope, r.true_from, r.true_until, r.recorded_at, r.corrects, r.body::text
            from ledger_record r
            where r.site_id = ? and not r.withdrawn
              and not exists (select 1 from ledger_record c where c.site_id = r.site_id and c.corrects = r.id)
            """;

    private static final String NEWEST_FIRST = " order by r.true_from desc, r.recorded_at desc, r.id desc limit ?";

    private final JdbcTemplate jdbc;
    private final SiteRegister sites;
    private final RuleShelf shelf;

    Known(JdbcTemplate jdbc, SiteRegister sites, RuleShelf shelf) {
        this.jdbc = jdbc;
        this.sites = sites;
        this.shelf = shelf;
    }

    ZoneId zone(SiteId site) {
        return sites.get(site).zone();
    }

    SiteRules rules(SiteId id) {
        Site site = sites.get(id);
        List<Told<SiteDecision>> decisions = newest(id, SiteDecision.class, Kind.SITE_DECISION, id);
        return new SiteRules(site.zone(), site.firstRuleSet(), shelf.knownAt(Instant.MAX), decisions);
    }

    List<Told<Calibration>> calibrations(SiteId site, InstrumentId instrument) {
        return newest(site, Calibration.class, Kind.CALIBRATION, instrument);
    }

    /** What the set is at that instant; none before it was received. */
    @Nullable Told<SetData> set(SiteId site, SetId set, Instant at) {
        return inForce(site, SetData.class, Kind.SET, set, at);
    }

    /** What the maker says of the model for that instant; none before the first data. */
    @Nullable Told<ModelData> model(SiteId site, ModelId model, Instant at) {
        return inForce(site, ModelData.class, Kind.MODEL, model, at);
    }

    /** The model data that count for a set at that instant. */
    @Nullable ModelData modelOf(SiteId site, SetId set, Instant at) {
        Told<SetData> data = set(site, set, at);
        Told<ModelData> model = data == null ? null : model(site, data.fact().model(), at);
        return model == null ? null : model.fact();
    }

    <F extends Fact> List<Told<F>> newest(SiteId site, Class<F> type, Kind kind, Id subject) {
        return jdbc.query(
                CURRENT + " and r.subject = ? and r.kind = ?" + NEWEST_FIRST,
                (row, n) -> told(row, type),
                site.value(),
                subject.value(),
                kind.number(),
                MOST);
    }

    /** Those that began from an instant on, newest first. */
    <F extends Fact> List<Told<F>> since(SiteId site, Class<F> type, Kind kind, Id subject, Instant from) {
        return jdbc.query(
                CURRENT + " and r.subject = ? and r.kind = ? and r.true_from >= ?" + NEWEST_FIRST,
                (row, n) -> told(row, type),
                site.value(),
                subject.value(),
                kind.number(),
                utc(from),
                MOST);
    }

    /** Everything of a kind that began within a time, whatever it is about, newest first. */
    <F extends Fact> List<Told<F>> within(SiteId site, Class<F> type, Kind kind, Instant from, Instant until) {
        return jdbc.query(
                CURRENT + " and r.kind = ? and r.true_from >= ? and r.true_from <= ?" + NEWEST_FIRST,
                (row, n) -> told(row, type),
                site.value(),
                kind.number(),
                utc(from),
                utc(until),
                MOST);
    }

    /** The whole story of what the store holds, or of one thing in it, up to an instant, oldest first. */
    List<Told<? extends Fact>> stock(SiteId site, @Nullable String item, Instant until) {
        return jdbc.query(
                "select s.* from (" + CURRENT.replace("r.body::text", "r.body::text, r.kind") + """
                         and r.subject = ? and r.kind in (?, ?, ?) and r.true_from <= ?
                          and (?::text is null or r.scope = ?)) s
                        order by s.true_from, s.recorded_at, s.id""",
                (row, n) -> told(row, Kind.ofNumber(row.getInt("kind")).type()),
                site.value(),
                site.value(),
                Kind.STOCK_RECEIPT.number(),
                Kind.STOCK_USE.number(),
                Kind.STOCK_COUNT.number(),
                utc(until),
                item,
                item);
    }

    /** The newest that had begun by an instant. */
    <F extends Fact> @Nullable Told<F> inForce(SiteId site, Class<F> type, Kind kind, Id subject, Instant at) {
        return first(jdbc.query(
                CURRENT + " and r.subject = ? and r.kind = ? and r.true_from <= ?" + NEWEST_FIRST,
                (row, n) -> told(row, type),
                site.value(),
                subject.value(),
                kind.number(),
                utc(at),
                1));
    }

    /** @throws NotFound {@code record.unknown} when there is none of that kind, or it was corrected or withdrawn */
    <F extends Fact> Told<F> record(SiteId site, Class<F> type, Kind kind, RecordId id) {
        Told<F> found = first(jdbc.query(
                CURRENT + " and r.id = ? and r.kind = ?",
                (row, n) -> told(row, type),
                site.value(),
                id.value(),
                kind.number()));
        if (found == null) {
            throw new NotFound("record.unknown", id);
        }
        return found;
    }

    /** Whether a later step of the same kind names the record: released, mended, closed, reviewed. */
    boolean isDone(SiteId site, Kind kind, RecordId record, Enum<?> step) {
        return !jdbc.query(
                        CURRENT + " and r.item = ? and r.kind = ? and r.body ->> 'step' = ? limit 1",
                        (row, n) -> row.getObject(1, UUID.class),
                        site.value(),
                        record.value(),
                        kind.number(),
                        step.name())
                .isEmpty();
    }

    /** Every record of a kind with that step that no record of the other step names, oldest first. */
    <F extends Fact> List<Told<F>> open(SiteId site, Class<F> type, Kind kind, Enum<?> step, Enum<?> done) {
        return jdbc.query(
                CURRENT + """
                         and r.kind = ? and r.body ->> 'step' = ?
                          and not exists (
                              select 1 from ledger_record d
                              where d.site_id = r.site_id and d.item = r.id and d.kind = r.kind and not d.withdrawn
                                and d.body ->> 'step' = ?
                                and not exists (
                                    select 1 from ledger_record c where c.site_id = d.site_id and c.corrects = d.id))
                        order by r.true_from, r.recorded_at, r.id limit ?""",
                (row, n) -> told(row, type),
                site.value(),
                kind.number(),
                step.name(),
                done.name(),
                MOST);
    }

    /** The newest of a kind and scope that began before an instant, or at all; whatever it is about. None where there is none. */
    <F extends Fact> @Nullable Told<F> newestOf(
            SiteId site, Class<F> type, Kind kind, String scope, @Nullable Instant before) {
        return first(jdbc.query(
                CURRENT + " and r.kind = ? and r.scope = ? and r.true_from < ?" + NEWEST_FIRST,
                (row, n) -> told(row, type),
                site.value(),
                kind.number(),
                scope,
                before == null ? OffsetDateTime.MAX : utc(before),
                1));
    }

    /** Every record of a kind, newest first. */
    <F extends Fact> List<Told<F>> all(SiteId site, Class<F> type, Kind kind) {
        return jdbc.query(
                CURRENT + " and r.kind = ?" + NEWEST_FIRST,
                (row, n) -> told(row, type),
                site.value(),
                kind.number(),
                MOST);
    }

    private static <T> @Nullable T first(List<T> found) {
        return found.isEmpty() ? null : found.get(0);
    }

    private static <F extends Fact> Told<F> told(ResultSet row, Class<F> type) throws SQLException {
        Timestamp until = row.getTimestamp(6);
        UUID corrects = row.getObject(8, UUID.class);
        return new Told<>(
                new RecordId(row.getObject(1, UUID.class)),
                row.getObject(2, UUID.class),
                row.getObject(3, UUID.class),
                row.getString(4),
                row.getTimestamp(5).toInstant(),
                until == null ? null : until.toInstant(),
                row.getTimestamp(7).toInstant(),
                corrects == null ? null : new RecordId(corrects),
                FactJson.read(row.getString(9), type));
    }

    private static OffsetDateTime utc(Instant instant) {
        return instant.atOffset(ZoneOffset.UTC);
    }
}
