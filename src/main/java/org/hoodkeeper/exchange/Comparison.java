package org.hoodkeeper.exchange;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/**
 * Compares a whole file with what the site has, by statements over all rows at once. What is there with the same content is
 * found, in its first or in any later version: a correction made here is neither undone nor told again. What is there with
 * other content is refused.
 */
@Component
@Transactional(propagation = Propagation.REQUIRES_NEW)
class Comparison {

    private static final String UUID_TEXT = "'^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$'";

    /** A record r with its private part p says what the staged row s says; a private part that was erased cannot differ. */
    private static final String SAME = """
            r.subject = s.subject and (s.reference is not null or r.item is not distinct from s.item)
            and r.scope is not distinct from s.scope and r.true_from = s.true_from
            and r.true_until is not distinct from s.true_until
            and (r.body::jsonb - ?::text[]) = (s.body::jsonb - ?::text[])
            and case when p.record_id is null then r.private_digest is not null or s.hidden is null
                     else (p.content::jsonb - 'because') = coalesce(s.hidden::jsonb, '{}'::jsonb) end
            """;

    private final JdbcTemplate jdbc;
    private final Lines lines;
    private final Shelves shelves;
    private final FigureCheck figures;

    Comparison(JdbcTemplate jdbc, Lines lines, Shelves shelves, FigureCheck figures) {
        this.figures = figures;
        this.jdbc = jdbc;
        this.lines = lines;
        this.shelves = shelves;
    }

    /**
     * @param already rows that are on record with the same content
     * @param refused rows that cannot be recorded
     * @param refusals the first of them
     */
    record Found(long already, long refused, List<RowRefusal> refusals) {}

    Found compare(SiteId site, UUID job, FileKind kind) {
        jdbc.update(
                "update import_row set found = false, found_id = null where site_id = ? and job_id = ?"
                        + " and (found or found_id is not null)",
                site.value(),
                job);
        List<RowRefusal> refusals = new ArrayList<>();
        long refused = twice(site, job, kind, refusals);
        Names.Sort register = kind.register();
        if (register != null) {
            resolve(site, job, Register.of(register));
        }
        Kind ledgerKind = kind.kind();
        if (ledgerKind == null) {
            refused += compareNames(site, job, kind, refusals);
        } else {
            String[] derived = kind.derived().toArray(String[]::new);
            if (kind.hasSource()) {
                find(site, job, ledgerKind);
                refused += references(site, job, ledgerKind, refusals);
                compareBySource(site, job, derived);
            } else {
                compareByBeginning(site, job, ledgerKind, derived);
            }
            refused += other(site, job, kind, refusals);
            List<RowRefusal> wrong = figures.refusals(site, job, kind);
            refused += wrong.size();
            wrong.stream().limit(Imports.SHOWN).forEach(refusals::add);
        }
        Long already = jdbc.queryForObject(
                "select count(*) from import_row where site_id = ? and job_id = ? and found",
                Long.class,
                site.value(),
                job);
        return new Found(already == null ? 0 : already, refused, refusals);
    }

    /** The register tables, whose names and ids the file's rows are held against. */
    private enum Register {
        WORKER("worker", "number"),
        SET("kit_set", "label"),
        MODEL("kit_model", "code"),
        TASK("task", "code"),
        INSTRUMENT("kit_instrument", "code"),
        SUPPLY("kit_supply", "code");

        private final String table;
        private final String name;

        Register(String table, String name) {
            this.table = table;
            this.name = name;
        }

        static Register of(Names.Sort sort) {
            return valueOf(sort.name());
        }
    }

    private long twice(SiteId site, UUID job, FileKind kind, List<RowRefusal> refusals) {
        String key = kind.hasSource() ? "source_id" : "subject, scope, true_from";
        Column column = kind.hasSource()
                ? kind.at(Column.Place.SOURCE)
                : kind.register() != null ? kind.at(Column.Place.REGISTER) : kind.at(Column.Place.SCOPE);
        String named = kind.hasSource() ? "source_id" : "coalesce(code, scope)";
        long[] all = {0};
        List<RowRefusal> found = jdbc.query(
                "select row_no, first, named, count(*) over () from (select row_no, " + named
                        + " as named, min(row_no) over (partition by " + key
                        + ") as first from import_row where site_id = ? and job_id = ?) t where row_no > first"
                        + " order by row_no limit " + Imports.SHOWN,
                (row, n) -> {
                    all[0] = row.getLong(4);
                    return RowRefusal.of(
                            row.getLong(1),
                            column == null ? "" : column.name(),
                            row.getString(3),
                            new Refused("exchange.twice", row.getString(3), row.getLong(2)));
                },
                site.value(),
                job);
        refusals.addAll(found);
        return all[0];
    }

    /** A name entered by somebody else since the file was read has its own id by now. */
    private void resolve(SiteId site, UUID job, Register register) {
        jdbc.update(
                "update import_row s set subject = k.id, second_id = null from " + register.table
                        + " k where s.site_id = ? and s.job_id = ? and k.site_id = s.site_id and k." + register.name
                        + " = s.code and (s.subject <> k.id or s.second_id is not null)",
                site.value(),
                job);
    }

    private long compareNames(SiteId site, UUID job, FileKind kind, List<RowRefusal> refusals) {
        Names.Sort sort = Objects.requireNonNull(kind.register(), "a file without records enters names");
        Register register = Register.of(sort);
        String same = register == Register.WORKER
                ? " and k.name = s.person and k.employer is not distinct from s.employer"
                : "";
        jdbc.update(
                "update import_row s set found = true from " + register.table
                        + " k where s.site_id = ? and s.job_id = ? and k.site_id = s.site_id and k.id = s.subject"
                        + same,
                site.value(),
                job);
        if (register != Register.WORKER) {
            return 0;
        }
        List<RowRefusal> other = jdbc.query(
                "select s.row_no, s.code, s.person, s.employer, k.name, k.employer from import_row s join worker k"
                        + " on k.site_id = s.site_id and k.id = s.subject where s.site_id = ? and s.job_id = ?"
                        + " and not s.found order by s.row_no",
                (row, n) -> {
                    boolean name = !row.getString(3).equals(row.getString(5));
                    String here = String.valueOf(row.getString(name ? 5 : 6));
                    String there = row.getString(name ? 3 : 4);
                    return RowRefusal.of(
                            row.getLong(1),
                            name ? "name" : "employer",
                            there == null ? "" : there,
                            new Refused("exchange.other", row.getString(2), (name ? "name=" : "employer=") + here));
                },
                site.value(),
                job);
        other.stream().limit(Imports.SHOWN).forEach(refusals::add);
        return other.size();
    }

    /** The record that a row may already be: by the site's own number, or by the name that an export gave it. */
    private void find(SiteId site, UUID job, Kind kind) {
        jdbc.update(
                "update import_row s set found_id = r.id from ledger_record r where s.site_id = ? and s.job_id = ?"
                        + " and r.site_id = s.site_id and r.kind = ? and r.source_id = s.source_id",
                site.value(),
                job,
                kind.number());
        jdbc.update(
                "update import_row s set found_id = r.id from ledger_record r where s.site_id = ? and s.job_id = ?"
                        + " and s.found_id is null and s.source_id ~ " + UUID_TEXT
                        + " and r.site_id = s.site_id and r.kind = ? and r.id = case when s.source_id ~ " + UUID_TEXT
                        + " then s.source_id::uuid end",
                site.value(),
                job,
                kind.number());
    }

    private long references(SiteId site, UUID job, Kind kind, List<RowRefusal> refusals) {
        jdbc.update(
                "update import_row set item = null where site_id = ? and job_id = ? and reference is not null",
                site.value(),
                job);
        jdbc.update(
                "update import_row s set item = r.id from ledger_record r where s.site_id = ? and s.job_id = ?"
                        + " and s.reference is not null and r.site_id = s.site_id and r.kind = ? and r.source_id = s.reference",
                site.value(),
                job,
                kind.number());
        jdbc.update(
                "update import_row s set item = r.id from ledger_record r where s.site_id = ? and s.job_id = ?"
                        + " and s.item is null and s.reference ~ " + UUID_TEXT
                        + " and r.site_id = s.site_id and r.kind = ? and r.id = case when s.reference ~ " + UUID_TEXT
                        + " then s.reference::uuid end",
                site.value(),
                job,
                kind.number());
        // what ends a corrected record ends its newest version
        jdbc.update("""
                with recursive v(row_no, id) as (
                    select s.row_no, s.item from import_row s
                    where s.site_id = ? and s.job_id = ? and s.reference is not null and s.item is not null
                    union all
                    select v.row_no, c.id from v join ledger_record c on c.site_id = ? and c.corrects = v.id)
                update import_row s set item = v.id from v
                where s.site_id = ? and s.job_id = ? and s.row_no = v.row_no and s.item <> v.id
                  and not exists (select 1 from ledger_record c where c.site_id = s.site_id and c.corrects = v.id)""", site.value(), job, site.value(), site.value(), job);
        jdbc.update(
                "update import_row s set item = o.record_id from import_row o where s.site_id = ? and s.job_id = ?"
                        + " and s.reference is not null and s.item is null and o.site_id = s.site_id and o.job_id = s.job_id"
                        + " and o.source_id = s.reference and o.row_no <> s.row_no",
                site.value(),
                job);
        List<RowRefusal> unknown = jdbc.query(
                "select row_no, reference from import_row where site_id = ? and job_id = ? and reference is not null"
                        + " and item is null order by row_no",
                (row, n) -> RowRefusal.of(
                        row.getLong(1),
                        "ends",
                        row.getString(2),
                        new Refused("exchange.ends.unknown", row.getString(2))),
                site.value(),
                job);
        unknown.stream().limit(Imports.SHOWN).forEach(refusals::add);
        return unknown.size();
    }

    /**
     * First with the record itself, then, where that was corrected, with each later version. Written so that every row costs a
     * few index look-ups whatever the planner believes of a table that was empty a second ago: only its owner may analyse it.
     */
    private void compareBySource(SiteId site, UUID job, String[] derived) {
        jdbc.update("""
                update import_row s set found = true
                from ledger_record r left join ledger_private p on p.site_id = r.site_id and p.record_id = r.id
                where s.site_id = ? and s.job_id = ? and r.site_id = s.site_id and r.id = s.found_id and not r.withdrawn and """ + " " + SAME, site.value(), job, derived, derived);
        jdbc.update("""
                update import_row s set found = true
                where s.site_id = ? and s.job_id = ? and s.found_id is not null and not s.found
                  and exists (
                    with recursive v(id) as (
                        select c.id from ledger_record c where c.site_id = s.site_id and c.corrects = s.found_id
                        union all
                        select c.id from v join ledger_record c on c.site_id = s.site_id and c.corrects = v.id)
                    select 1 from v join ledger_record r on r.site_id = s.site_id and r.id = v.id
                    left join ledger_private p on p.site_id = r.site_id and p.record_id = r.id
                    where not r.withdrawn and """ + " " + SAME + ")", site.value(), job, derived, derived);
    }

    private void compareByBeginning(SiteId site, UUID job, Kind kind, String[] derived) {
        String match = """
                 from ledger_record r left join ledger_private p on p.site_id = r.site_id and p.record_id = r.id
                where s.site_id = ? and s.job_id = ? and r.site_id = s.site_id and r.kind = ? and r.subject = s.subject
                  and r.scope is not distinct from s.scope and r.true_from = s.true_from and not r.withdrawn
                """;
        jdbc.update(
                "update import_row s set found = true" + match + " and " + SAME,
                site.value(),
                job,
                kind.number(),
                derived,
                derived);
        jdbc.update(
                "update import_row s set found_id = r.id" + match + " and not s.found",
                site.value(),
                job,
                kind.number());
    }

    private long other(SiteId site, UUID job, FileKind kind, List<RowRefusal> refusals) {
        Long count = jdbc.queryForObject(
                "select count(*) from import_row where site_id = ? and job_id = ? and found_id is not null and not found",
                Long.class,
                site.value(),
                job);
        if (count == null || count == 0) {
            return 0;
        }
        Names names = shelves.names(site);
        CellWriter writer = new CellWriter(kind, names, shelves.moments(site));
        jdbc.query("""
                select s.row_no, s.source_id, s.code, s.subject, s.item, s.reference, s.scope, s.true_from, s.true_until,
                       s.told_claimed, s.body, s.hidden,
                       (with recursive v(id) as (
                            select s.found_id union all
                            select c.id from v join ledger_record c on c.site_id = s.site_id and c.corrects = v.id)
                        select v.id from v join ledger_record n on n.site_id = s.site_id and n.id = v.id
                        where not n.withdrawn order by n.recorded_at desc, n.id desc limit 1)
                from import_row s where s.site_id = ? and s.job_id = ? and s.found_id is not null and not s.found
                order by s.row_no limit """ + " " + Imports.SHOWN, (row, n) -> differing(site, kind, row, writer, names), site.value(), job)
                .forEach(refusals::add);
        return count;
    }

    private RowRefusal differing(SiteId site, FileKind kind, ResultSet row, CellWriter writer, Names names)
            throws SQLException {
        CellWriter.Line staged = line(row);
        CellWriter.Line stored = lines.one(site, kind, row.getObject(13, UUID.class), names);
        List<String> here = stored == null ? List.of() : writer.cells(stored);
        List<String> there = writer.cells(staged);
        List<String> header = writer.header();
        String column = "";
        String value = "";
        List<String> different = new ArrayList<>();
        for (int i = 0; i < here.size(); i++) {
            boolean compared =
                    !header.get(i).equals("source_id") && !header.get(i).equals("told_claimed");
            if (compared && !here.get(i).equals(there.get(i))) {
                if (different.isEmpty()) {
                    column = header.get(i);
                    value = there.get(i);
                }
                different.add(header.get(i) + "=" + here.get(i));
            }
        }
        String key = staged.source() != null ? staged.source() : staged.code() != null ? staged.code() : staged.scope();
        return RowRefusal.of(
                row.getLong(1), column, value, new Refused("exchange.other", key, String.join("; ", different)));
    }

    private static CellWriter.Line line(ResultSet row) throws SQLException {
        Timestamp from = row.getTimestamp(8);
        Timestamp until = row.getTimestamp(9);
        @Nullable LocalDate claimed = row.getObject(10, LocalDate.class);
        return new CellWriter.Line(
                row.getString(2),
                row.getString(3),
                null,
                null,
                row.getObject(4, UUID.class),
                row.getObject(5, UUID.class),
                row.getString(6),
                row.getString(7),
                from == null ? null : from.toInstant(),
                until == null ? null : until.toInstant(),
                claimed,
                row.getString(11),
                row.getString(12));
    }
}
