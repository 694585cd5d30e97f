package org.hoodkeeper.exchange;

import java.sql.Date;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import java.util.function.Consumer;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.people.People;
import org.hoodkeeper.people.Worker;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.RowCallbackHandler;
import org.springframework.stereotype.Component;

/**
 * What a site has, line by line. A record is called by the source id of the first of its chain, else by that one's own id, so
 * that a corrected record keeps its name in every later file.
 */
@Component
class Lines {

    /** Rows fetched at once: an export of any size passes through little memory. */
    private static final int AT_ONCE = 2_000;

    private static final String NAMED = """
            select r.id,
                   coalesce(root.name, r.source_id, r.id::text),
                   r.subject, r.item, ended.name, r.scope, r.true_from, r.true_until, k.told_claimed,
                   r.body::text, p.content::text
            from ledger_record r
            left join ledger_private p on p.site_id = r.site_id and p.record_id = r.id
            left join lateral (
                with recursive up(id, corrects, source_id) as (
                    select o.id, o.corrects, o.source_id from ledger_record o where o.site_id = r.site_id and o.id = r.corrects
                    union all
                    select o.id, o.corrects, o.source_id from up join ledger_record o on o.site_id = r.site_id and o.id = up.corrects)
                select up.id, coalesce(up.source_id, up.id::text) as name from up where up.corrects is null
            ) root on r.corrects is not null
            left join lateral (
                with recursive up(id, corrects, source_id) as (
                    select o.id, o.corrects, o.source_id from ledger_record o where o.site_id = r.site_id and o.id = r.item
                    union all
                    select o.id, o.corrects, o.source_id from up join ledger_record o on o.site_id = r.site_id and o.id = up.corrects)
                select coalesce(up.source_id, up.id::text) as name from up where up.corrects is null
            ) ended on ? and r.item is not null
            left join import_claim k on k.site_id = r.site_id and k.record_id = coalesce(root.id, r.id)
            where r.site_id = ?
            """;

    private static final String CURRENT = """
             and r.kind = ? and not r.withdrawn
             and not exists (select 1 from ledger_record c where c.site_id = r.site_id and c.corrects = r.id)
            """;

    /** A receipt into the store that stands in the file of sets already. */
    private static final String NOT_IN_SETS = """
             and not (r.body ->> 'claim' = 'RECEIVED' and exists (
                 select 1 from ledger_record s where s.site_id = r.site_id and s.kind = ? and s.subject = r.subject
                   and s.true_from = r.true_from and not s.withdrawn))
            """;

    private final JdbcTemplate jdbc;
    private final Shelves shelves;
    private final People people;

    Lines(JdbcTemplate jdbc, Shelves shelves, People people) {
        this.jdbc = jdbc;
        this.shelves = shelves;
        this.people = people;
    }

    /** Whose lines are taken. */
    enum Reach {
        ALL,
        /** Only those about people of one employer. */
        EMPLOYER,
        /** Only those about things, not people. */
        THINGS
    }

    /** In an order that is the same on every site that has the same content. */
    void each(
            SiteId site,
            FileKind kind,
            Reach reach,
            @Nullable String employer,
            Names names,
            Consumer<CellWriter.Line> take) {
        Kind ledgerKind = kind.kind();
        if (ledgerKind == null) {
            listed(site, kind, reach, employer, take);
            return;
        }
        StringBuilder sql = new StringBuilder(NAMED + CURRENT);
        List<Object> values =
                new ArrayList<>(List.of(kind.at(Column.Place.ENDS) != null, site.value(), ledgerKind.number()));
        if (kind == FileKind.CUSTODY) {
            sql.append(NOT_IN_SETS);
            values.add(Kind.SET.number());
        }
        if (reach == Reach.EMPLOYER) {
            sql.append(
                    " and exists (select 1 from worker w where w.site_id = r.site_id and w.id = r.subject and w.employer = ?)");
            values.add(employer == null ? "" : employer);
        }
        if (reach == Reach.THINGS) {
            sql.append(" and not exists (select 1 from worker w where w.site_id = r.site_id and w.id = r.subject)");
        }
        sql.append(" order by r.true_from, ").append(order(kind));
        JdbcTemplate streaming = new JdbcTemplate(Objects.requireNonNull(jdbc.getDataSource()));
        streaming.setFetchSize(AT_ONCE);
        RowCallbackHandler each = row -> take.accept(line(row, kind, names));
        streaming.query(sql.toString(), each, values.toArray());
    }

    private static String order(FileKind kind) {
        if (kind.hasSource()) {
            return "coalesce(root.name, r.source_id, r.id::text) collate \"C\"";
        }
        return switch (kind) {
            case SETS ->
                "(select s.label from kit_set s where s.site_id = r.site_id and s.id = r.subject) collate \"C\"";
            case MODELS ->
                "(select m.code from kit_model m where m.site_id = r.site_id and m.id = r.subject) collate \"C\"";
            default -> "r.scope collate \"C\"";
        };
    }

    /** One record as it stands, whether or not it was corrected since. */
    CellWriter.@Nullable Line one(SiteId site, FileKind kind, UUID record, Names names) {
        return jdbc
                .query(
                        NAMED + " and r.id = ?",
                        (row, n) -> line(row, kind, names),
                        kind.at(Column.Place.ENDS) != null,
                        site.value(),
                        record)
                .stream()
                .findFirst()
                .orElse(null);
    }

    private static CellWriter.Line line(ResultSet row, FileKind kind, Names names) throws SQLException {
        UUID subject = row.getObject(3, UUID.class);
        Timestamp until = row.getTimestamp(8);
        Date claimed = row.getDate(9);
        Names.Sort register = kind.register();
        return new CellWriter.Line(
                row.getString(2),
                register == null ? null : names.name(register, subject),
                null,
                null,
                subject,
                row.getObject(4, UUID.class),
                row.getString(5),
                row.getString(6),
                row.getTimestamp(7).toInstant(),
                until == null ? null : until.toInstant(),
                claimed == null ? null : row.getObject(9, LocalDate.class),
                row.getString(10),
                row.getString(11));
    }

    private void listed(
            SiteId site, FileKind kind, Reach reach, @Nullable String employer, Consumer<CellWriter.Line> take) {
        if (kind == FileKind.WORKERS) {
            people.all(site).stream()
                    .filter(one -> reach != Reach.EMPLOYER || employer != null && employer.equals(one.employer()))
                    .map(Lines::listed)
                    .forEach(take);
            return;
        }
        shelves.codes(site, kind).forEach(code -> take.accept(listed(code, null, null)));
    }

    private static CellWriter.Line listed(Worker worker) {
        return listed(worker.number(), worker.name(), worker.employer());
    }

    private static CellWriter.Line listed(String code, @Nullable String person, @Nullable String employer) {
        return new CellWriter.Line(null, code, person, employer, null, null, null, null, null, null, null, null, null);
    }
}
