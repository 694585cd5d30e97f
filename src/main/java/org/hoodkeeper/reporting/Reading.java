package org.hoodkeeper.reporting;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.StringJoiner;
import java.util.regex.Pattern;
import org.hoodkeeper.facts.Kind;

/**
 * Builds one statement that fetches, for many subjects at once, exactly the records that can decide. Each piece looks a kind up
 * per subject through the index by subject or by item, with a bound; a record that was not told yet, was corrected or withdrawn
 * by the moment of knowledge is left out inside the statement.
 *
 * <p>Every piece takes the records begun by {@code :start}; those that begin between {@code :start} and {@code :horizon} come in
 * whole, since any of them may change the answer within the interval.
 */
final class Reading {

    private static final String COLUMNS =
            "r.kind, r.id, r.subject, r.item, r.scope, r.true_from, r.true_until, r.recorded_at, r.corrects, r.body::text";

    private static final String CURRENT = """
            r.site_id = :site and r.recorded_at <= :known and not r.withdrawn
            and not exists (select 1 from ledger_record c
                            where c.site_id = r.site_id and c.corrects = r.id and c.recorded_at <= :known)""";

    private static final String NEWEST = "r.true_from desc, r.recorded_at desc, r.id desc";

    private static final Pattern ARGUMENT = Pattern.compile("(?<!:):([a-z]+)");

    /** More than a year of hourly records of one kind about one subject: no question may lose the ones right after its start. */
    private static final int MOST_LATER = 10_000;

    private final List<String> pieces = new ArrayList<>();
    private final String ids;
    private final String column;

    private Reading(String ids, String column) {
        this.ids = ids;
        this.column = column;
    }

    /** Records about the given subjects. @param ids name of the parameter that holds them */
    static Reading about(String ids) {
        return new Reading(ids, "subject");
    }

    /** Records that name the given things as second party. */
    static Reading naming(String ids) {
        return new Reading(ids, "item");
    }

    /** The newest n. */
    Reading latest(Kind kind, int n) {
        return piece(kind, "r.true_from <= :start", NEWEST, n);
    }

    Reading latest(Kind kind, int n, String which) {
        return piece(kind, "r.true_from <= :start and " + which, NEWEST, n);
    }

    /** The newest of each group: of each scope, of each outcome. */
    Reading latestOfEach(Kind kind, String... groups) {
        StringJoiner each = new StringJoiner(", ");
        for (String group : groups) {
            each.add(group);
        }
        pieces.add("select distinct on (" + column(each) + ") " + COLUMNS + from(kind)
                + " and r.true_from <= :start order by " + column(each) + ", " + NEWEST);
        return this;
    }

    private String column(StringJoiner each) {
        return "r." + column + ", " + each;
    }

    /** The oldest one. */
    Reading oldest(Kind kind) {
        return piece(kind, "r.true_from <= :start", "r.true_from, r.recorded_at, r.id", 1);
    }

    /** The newest of somebody else than the newest one's second party or subject. */
    Reading latestOfAnother(Kind kind, String who, String which) {
        String newest = "(select o." + who + " from ledger_record o where o.site_id = :site and o." + column
                + " = s.id and o.kind = "
                + kind.number() + " and o.true_from <= :start and o.recorded_at <= :known and not o.withdrawn and "
                + which.replace("r.", "o.")
                + " and not exists (select 1 from ledger_record oc where oc.site_id = o.site_id and oc.corrects = o.id"
                + " and oc.recorded_at <= :known) order by o.true_from desc, o.recorded_at desc, o.id desc limit 1)";
        piece(kind, "r.true_from <= :start and " + which, NEWEST, 1);
        return piece(
                kind,
                "r.true_from <= :start and " + which + " and r." + who + " is distinct from " + newest,
                NEWEST,
                1);
    }

    /** All that have begun and that nothing had closed by the start. @param opening and closing: values of the step */
    Reading open(Kind kind, String opening, String closing) {
        return piece(
                kind,
                "r.true_from <= :start and (r.true_until is null or r.true_until > :start) and r.body ->> 'step' = '"
                        + opening
                        + "' and not exists (select 1 from ledger_record e where e.site_id = r.site_id and e.item = r.id and e.kind = "
                        + kind.number() + " and e.true_from <= :start and e.recorded_at <= :known and not e.withdrawn"
                        + " and e.body ->> 'step' = '" + closing
                        + "' and not exists (select 1 from ledger_record ec where ec.site_id = e.site_id and ec.corrects = e.id"
                        + " and ec.recorded_at <= :known))",
                NEWEST,
                200);
    }

    /** All that a condition picks, newest first, up to a bound. */
    Reading where(Kind kind, String which, int most) {
        return piece(kind, which, NEWEST, most);
    }

    /** The same, where the site has taken a decision that asks for it. @param key how the decision's key begins */
    Reading whereDecided(String key, Kind kind, String which, int most) {
        return where(
                kind,
                "exists (select 1 from ledger_record d where d.site_id = :site and d.subject = :site and d.kind = "
                        + Kind.SITE_DECISION.number() + " and d.scope like '" + key + "%') and " + which,
                most);
    }

    /** What begins after the start and before the horizon. */
    Reading later(Kind... kinds) {
        for (Kind kind : kinds) {
            piece(kind, "r.true_from > :start and r.true_from < :horizon", NEWEST, MOST_LATER);
        }
        return this;
    }

    private Reading piece(Kind kind, String which, String order, int most) {
        pieces.add("select l.* from unnest(:" + ids + ") s(id) cross join lateral (select " + COLUMNS
                + " from ledger_record r where r." + column + " = s.id and r.kind = " + kind.number() + " and "
                + CURRENT + " and "
                + which + " order by " + order + " limit " + most + ") l");
        return this;
    }

    private String from(Kind kind) {
        return " from ledger_record r where r." + column + " = any(array(select unnest(" + ids
                + ") from argument)) and r.kind = " + kind.number() + " and " + CURRENT;
    }

    /**
     * One statement of all pieces; a record that two pieces pick comes twice. The arguments stand in one row, so that each is
     * sent once and has its type.
     */
    static String statement(Reading... readings) {
        StringJoiner all = new StringJoiner("\nunion all\n");
        StringJoiner arguments = new StringJoiner(", ");
        arguments
                .add(":site::uuid as site")
                .add(":start::timestamptz as start")
                .add(":horizon::timestamptz as horizon")
                .add(":known::timestamptz as known");
        Set<String> ids = new LinkedHashSet<>();
        for (Reading reading : readings) {
            reading.pieces.forEach(piece -> all.add("(" + piece + ")"));
            ids.add(reading.ids);
        }
        ids.forEach(name -> arguments.add(":" + name + "::uuid[] as " + name));
        return "with argument as materialized (select " + arguments + ")\n"
                + ARGUMENT.matcher(all.toString()).replaceAll("(select $1 from argument)");
    }
}
