package org.hoodkeeper.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import org.hoodkeeper.calculation.parts.Fitting;
import org.hoodkeeper.calculation.parts.PartTrace;
import org.hoodkeeper.calculation.parts.PrintedMark;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.PartChange;
import org.hoodkeeper.kernel.SetId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.FactJson;
import org.hoodkeeper.reporting.WearBook;
import org.hoodkeeper.reporting.Worn;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Parts through time: what sits in a set at a moment, and where a part or a lot is and ever was, with the wears meanwhile. */
@Service
@Transactional(readOnly = true)
public class PartHistory {

    private static final String CHANGES = """
            select r.subject, r.scope, r.body::text, r.true_from from ledger_record r
            where r.site_id = ? and r.kind = ? and r.recorded_at <= ? and not r.withdrawn and r.scope is not null
              and not exists (select 1 from ledger_record c
                              where c.site_id = r.site_id and c.corrects = r.id and c.recorded_at <= ?)
            """;

    /** Loosely, as {@link PrintedMark} compares; what this lets through is looked at again. */
    private static final String MARKED = """
             and (?::text is null or upper(regexp_replace(r.body ->> '#', '[^[:alnum:]]', '', 'g'))
                                     = upper(regexp_replace(?, '[^[:alnum:]]', '', 'g')))""";

    private static final String IN_ORDER = " order by r.true_from, r.recorded_at, r.id";

    private final JdbcTemplate jdbc;
    private final WearBook wears;

    PartHistory(JdbcTemplate jdbc, WearBook wears) {
        this.jdbc = jdbc;
        this.wears = wears;
    }

    /** Every part that was ever fitted into the set. @param knownAt told by then decides */
    public PartTrace of(SiteId site, SetId set, Instant knownAt) {
        return of(site, List.of(set), knownAt);
    }

    /** The same for some sets. */
    public PartTrace of(SiteId site, Collection<SetId> sets, Instant knownAt) {
        return trace(" and r.subject = any(?)", site, knownAt, (Object)
                sets.stream().map(SetId::value).toArray(UUID[]::new));
    }

    /** The same for every set of the site. */
    public PartTrace ofAll(SiteId site, Instant knownAt) {
        return trace("", site, knownAt);
    }

    /** Marks of a part; what is not given is any. At least one is given. */
    public record Mark(
            @Nullable String part,
            @Nullable String lot,
            @Nullable String serial) {

        public boolean isEmpty() {
            return part == null && lot == null && serial == null;
        }

        boolean fits(Fitting fitting) {
            return (part == null || part.equals(fitting.part()))
                    && (lot == null || PrintedMark.same(lot, fitting.lot()))
                    && (serial == null || PrintedMark.same(serial, fitting.serial()));
        }
    }

    /** A part that was in a set for a time. @param wears those that touch that time, oldest first */
    public record Stay(Fitting fitting, List<Worn> wears) {

        public boolean isIn() {
            return fitting.until() == null;
        }
    }

    /** Where such a part is and was: in now first, then the last taken out. @throws IllegalArgumentException when no mark is given */
    public List<Stay> where(SiteId site, Mark mark, Instant now) {
        if (mark.isEmpty()) {
            throw new IllegalArgumentException("a part is looked for by a mark");
        }
        List<SetId> sets = jdbc.query(
                "select distinct r.subject from ledger_record r where r.site_id = ? and r.kind = ? and not r.withdrawn"
                        + " and (?::text is null or r.body ->> 'part' = ?)" + MARKED.replace("#", "lot")
                        + MARKED.replace("#", "serial"),
                (row, n) -> new SetId(row.getObject(1, UUID.class)),
                site.value(),
                Kind.PART_CHANGE.number(),
                mark.part(),
                mark.part(),
                mark.lot(),
                mark.lot(),
                mark.serial(),
                mark.serial());
        List<Fitting> fittings =
                of(site, sets, now).fittings().stream().filter(mark::fits).toList();
        return stays(site, fittings, now);
    }

    /** Fittings with the wears of their sets meanwhile: in now first, then the last taken out. */
    public List<Stay> stays(SiteId site, List<Fitting> fittings, Instant now) {
        if (fittings.isEmpty()) {
            return List.of();
        }
        Instant first =
                fittings.stream().map(Fitting::from).min(Instant::compareTo).orElseThrow();
        Map<SetId, List<Worn>> worn =
                wears(site, fittings.stream().map(Fitting::set).distinct().toList(), first, now);
        List<Stay> stays = new ArrayList<>();
        for (Fitting fitting : fittings) {
            stays.add(new Stay(
                    fitting,
                    worn.getOrDefault(fitting.set(), List.of()).stream()
                            .filter(one ->
                                    fitting.overlaps(one.from(), one.judged(now).until()))
                            .toList()));
        }
        stays.sort((one, other) -> {
            Instant mine = one.fitting().until();
            Instant theirs = other.fitting().until();
            if (mine == null || theirs == null) {
                return Boolean.compare(mine != null, theirs != null);
            }
            return theirs.compareTo(mine);
        });
        return stays;
    }

    /** The wears of sets that last beyond {@code from} and begin by {@code until}, oldest first. */
    public Map<SetId, List<Worn>> wears(SiteId site, Collection<SetId> sets, Instant from, Instant until) {
        Map<SetId, List<Worn>> worn = new LinkedHashMap<>();
        if (sets.isEmpty()) {
            return worn;
        }
        List<UUID> ids = sets.stream().map(SetId::value).toList();
        // whoever went in the day before may still be in
        for (Worn one : wears.about(site, ids, from.minus(Worn.LONGEST), until.plusNanos(1_000))) {
            if (one.judged(until).until().isAfter(from)) {
                worn.computeIfAbsent(one.set(), any -> new ArrayList<>()).add(one);
            }
        }
        return worn;
    }

    private PartTrace trace(String which, SiteId site, Instant knownAt, Object... more) {
        List<Object> arguments = new ArrayList<>(List.of(
                site.value(),
                Kind.PART_CHANGE.number(),
                knownAt.atOffset(ZoneOffset.UTC),
                knownAt.atOffset(ZoneOffset.UTC)));
        arguments.addAll(List.of(more));
        return PartTrace.of(jdbc.query(CHANGES + which + IN_ORDER, (row, n) -> change(row), arguments.toArray()));
    }

    private static PartTrace.Change change(ResultSet row) throws SQLException {
        PartChange part = FactJson.read(row.getString(3), PartChange.class);
        return new PartTrace.Change(
                new SetId(row.getObject(1, UUID.class)),
                Objects.requireNonNull(row.getString(2)),
                part.part(),
                part.lot(),
                part.serial(),
                part.madeOn(),
                row.getTimestamp(4).toInstant());
    }
}
