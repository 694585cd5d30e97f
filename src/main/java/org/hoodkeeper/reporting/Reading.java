package org.hoodkeeper.reporting;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.StringJoiner;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.hoodkeeper.facts.Kind;

/**
 * Builds one statement that fetches, for many subjects at once, exactly the records that can decide. Each piece looks a kind up
 * per subject through the index by subject or by item, with a bound; a record that was not told yet, was corrected or withdrawn
 * by the moment of knowledge is left out inside the statement.
 *
 * <p>Every piece takes the records begun by {@code :start}; those that begin between {@code :start} and {@code :horizon} come in
 * whole, since any of them may change the answer within the interval.
 *
 * <p>The text is always the same and the arguments stand in one row, so that the database plans it once for each connection.
 */
final class Reading {

    private static final String COLUMNS =
            "r.kind, r.id, r.subject, r.item, r.scope, r.true_from, r.true_until, r.recorded_at, r.corrects, r.body::text";

    /**
     * A subquery for each row and no anti-join: a join would be sorted by id, and every record of the kind be read for the newest.
     * What was told by then is no bound for an index ({@code is true}): PostgreSQL 18 would reckon with one descent for each time
     * at which something was true, and rather read all records of the kind on the site.
     */
    private static final String CURRENT = current("r", "c");

    private static final String NEWEST = "r.true_from desc, r.recorded_at desc, r.id desc";

    private static final Pattern ARGUMENT = Pattern.compile("(?<!:):([a-z]+)");
    private static final Pattern VALUE = Pattern.compile("\\{([a-z]+)\\}");

    /** More than a year of hourly records of one kind about one subject: no question may lose the ones right after its start. */
    private static final int MOST_LATER = 10_000;

    private static String current(String record, String correction) {
        return "%1$s.site_id = :site and (%1$s.recorded_at <= :known) is true and not %1$s.withdrawn and (select %2$s.id"
                .concat(" from ledger_record %2$s where %2$s.site_id = %1$s.site_id and %2$s.corrects = %1$s.id")
                .concat(" and %2$s.recorded_at <= :known) is null")
                .formatted(record, correction);
    }

    /**
     * One look at the ledger for each subject.
     *
     * @param lateral the look, with its values in braces
     * @param values by name, as they stand in SQL: pieces that differ in them alone become one
     * @param onlyPast finds nothing unless the start lies in the known past
     */
    private record Piece(String lateral, Map<String, String> values, boolean onlyPast) {}

    private final List<Piece> pieces = new ArrayList<>();
    private final String ids;
    private final String column;

    private static final String LATER = "r.true_from > :start and r.true_from < :horizon";
    private static final String SAYS = "r.true_from <= :start and r.body ->> {field} = {value}";

    private static String text(String value) {
        return "'" + value + "'";
    }

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

    /** The newest of which a field says that. */
    Reading latest(Kind kind, String field, String value) {
        return add(lateral(SAYS, NEWEST), saying(kind, field, value));
    }

    private static Map<String, String> saying(Kind kind, String field, String value) {
        return Map.of("kind", "" + kind.number(), "most", "1", "field", text(field), "value", text(value));
    }

    /** The newest of each group: of each scope, of each outcome. For kinds of which a subject has few. */
    Reading latestOfEach(Kind kind, String... groups) {
        String each = String.join(", ", groups);
        return add(
                "select distinct on (" + each + ") " + COLUMNS + " from ledger_record r where r." + column
                        + " = s.id and r.kind = {kind} and " + CURRENT + " and r.true_from <= :start order by " + each
                        + ", " + NEWEST,
                Map.of("kind", "" + kind.number()));
    }

    /** The newest of each way, for kinds of which a subject has thousands: goes from way to way through an index of its own. */
    Reading latestOfEachWay(Kind kind) {
        String next = "select r.way from ledger_record r where r.site_id = :site and r." + column
                + " = s.id and r.kind = {kind} ";
        String first = " order by r.way limit 1";
        return add(
                "with recursive ways(way) as ((" + next + first + ") union all select (" + next + " and r.way > w.way"
                        + first + ") from ways w where w.way is not null)"
                        + " select n.* from ways w cross join lateral ("
                        + lateral("r.way is not null and r.way = w.way and r.true_from <= :start", NEWEST)
                        + ") n where w.way is not null",
                upTo(kind, 1));
    }

    /** The newest of each second party or subject, for kinds of which a subject has thousands: through an index of its own. */
    Reading latestOfEachWearer(Kind kind, String who) {
        String next = "select r." + who + " from ledger_record r where r.site_id = :site and r." + column
                + " = s.id and r.kind = " + kind.number() + " ";
        String first = " order by r." + who + " limit 1";
        String newest = lateral("r." + who + " = w.id and r.true_from <= :start", NEWEST)
                .replace("{kind}", "" + kind.number());
        return add(
                "with recursive wearers(id) as ((" + next + first + ") union all select (" + next + " and r." + who
                        + " > w.id" + first + ") from wearers w where w.id is not null)"
                        + " select n.* from wearers w cross join lateral (" + newest + ") n where w.id is not null",
                Map.of("most", "1"));
    }

    /** The oldest one. */
    Reading oldest(Kind kind) {
        return piece(kind, "r.true_from <= :start", "r.true_from, r.recorded_at, r.id", 1);
    }

    /** The oldest after the newest cleaning that was more than a wipe: the week of one wearer runs from it. */
    Reading oldestSinceFullClean(Kind kind) {
        String clean = "select f.true_from, f.recorded_at from ledger_record f where f.subject = s.id and f.kind = "
                + Kind.CLEANING.number() + " and " + current("f", "fc")
                + " and f.true_from <= :start and f.body ->> 'method' <> 'WIPE'"
                + " order by f.true_from desc, f.recorded_at desc, f.id desc limit 1";
        String since = "r.true_from <= :start and r.true_from >= c.true_from"
                + " and (r.true_from > c.true_from or r.recorded_at > c.recorded_at)";
        return add(
                "select n.* from (" + clean + ") c cross join lateral ("
                        + lateral(since, "r.true_from, r.recorded_at, r.id") + ") n",
                upTo(kind, 1));
    }

    /** The newest of somebody else than the newest one's second party or subject. */
    Reading latestOfAnother(Kind kind, String who, String field, String value) {
        String newest = "(select o." + who + " from ledger_record o where o." + column
                + " = s.id and o.kind = {kind} and o.true_from <= :start and " + current("o", "oc")
                + " and o.body ->> {field} = {value}"
                + " order by o.true_from desc, o.recorded_at desc, o.id desc limit 1)";
        latest(kind, field, value);
        return add(lateral(SAYS + " and r." + who + " is distinct from " + newest, NEWEST), saying(kind, field, value));
    }

    /** All that have begun and that nothing had closed by the start. @param opening and closing: values of the step */
    Reading open(Kind kind, String opening, String closing) {
        String which = "r.true_from <= :start and (r.true_until is null or r.true_until > :start)"
                + " and r.body ->> 'step' = {opening} and not exists (select 1 from ledger_record e"
                + " where e.item = r.id and e.kind = {kind} and e.true_from <= :start and " + current("e", "ec")
                + " and e.body ->> 'step' = {closing})";
        return add(
                lateral(which, NEWEST),
                Map.of("kind", "" + kind.number(), "most", "200", "opening", text(opening), "closing", text(closing)));
    }

    /**
     * Whatever is of the batch that the thing went into last, and of those that it went into later: a batch is a scope, and each
     * thing that goes into it is named by a record of its own. Through an index of its own.
     */
    Reading batches(Kind kind) {
        String into = "select o.scope from ledger_record o where o." + column + " = s.id and o.kind = {kind} and "
                + current("o", "oc") + " and o.true_from ";
        String of = "select " + COLUMNS + " from ledger_record r where r.kind = {kind} and " + CURRENT
                + " and (r.true_from <= :start or r.true_from < :horizon) and r.scope ";
        add(
                of + "= (" + into + "<= :start order by o.true_from desc, o.recorded_at desc, o.id desc limit 1)",
                Map.of("kind", "" + kind.number()));
        pieces.add(new Piece(
                of + "in (" + into + "> :start and o.true_from < :horizon)", Map.of("kind", "" + kind.number()), true));
        return this;
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

    /** What begins after the start and before the horizon: of an event nothing, unless the start lies in the known past. */
    Reading later(Kind... kinds) {
        for (Kind kind : kinds) {
            pieces.add(new Piece(lateral(LATER, NEWEST), upTo(kind, MOST_LATER), !kind.mayBeginLater()));
        }
        return this;
    }

    /** The same, for an event that may lie ahead: a hold that a recall places. */
    Reading laterAndAhead(Kind kind) {
        return piece(kind, LATER, NEWEST, MOST_LATER);
    }

    private Reading piece(Kind kind, String which, String order, int most) {
        return add(lateral(which, order), upTo(kind, most));
    }

    private Reading add(String lateral, Map<String, String> values) {
        pieces.add(new Piece(lateral, values, false));
        return this;
    }

    private static Map<String, String> upTo(Kind kind, int most) {
        return Map.of("kind", "" + kind.number(), "most", "" + most);
    }

    private String lateral(String which, String order) {
        return "select " + COLUMNS + " from ledger_record r where r." + column + " = s.id and r.kind = {kind} and "
                + CURRENT + " and " + which + " order by " + order + " limit {most}";
    }

    /**
     * A statement with the names of the ids that it takes, after site, start, horizon and known. In two forms, for each of its
     * pieces takes time even where it has nothing to find.
     *
     * @param ahead where the start does not lie before what is known, so that no event can follow it
     * @param past for any start
     */
    record Statement(String ahead, String past, List<String> ids) {}

    /** One statement of all pieces; a record that two pieces pick comes twice. */
    static Statement statement(List<Reading> readings) {
        Set<String> ids = new LinkedHashSet<>();
        readings.forEach(reading -> ids.add(reading.ids));
        return new Statement(
                arguments(ids) + union(readings, When.AHEAD, "a", ""),
                arguments(ids) + union(readings, When.ANY, "a", ""),
                List.copyOf(ids));
    }

    /**
     * One statement that also fetches what the records of the first readings name.
     *
     * @param named for each of the ids of the next readings an array made from {@code picked} and the arguments {@code a}
     */
    static Statement statement(List<Reading> first, String named, List<Reading> next, Set<String> ids) {
        return new Statement(
                both(first, named, next, ids, When.AHEAD), both(first, named, next, ids, When.ANY), List.copyOf(ids));
    }

    private enum When {
        AHEAD,
        ANY
    }

    private static String both(List<Reading> first, String named, List<Reading> next, Set<String> ids, When when) {
        return arguments(ids) + ",\npicked as materialized (" + union(first, when, "a", "")
                + "),\nnamed as materialized (select " + named + " from argument a)\nselect * from picked\nunion all\n"
                + union(next, when, "n", " cross join named n");
    }

    private static String arguments(Set<String> ids) {
        StringJoiner arguments = new StringJoiner(", ");
        arguments
                .add("?::uuid as site")
                .add("?::timestamptz as start")
                .add("?::timestamptz as horizon")
                .add("?::timestamptz as known");
        ids.forEach(name -> arguments.add("?::uuid[] as " + name));
        return "with argument as materialized (select " + arguments + ")";
    }

    /** Making a plan ready takes longer than running it, and grows with its nodes: looks that are alike are one node. */
    private static String union(List<Reading> readings, When when, String holder, String holding) {
        StringJoiner all = new StringJoiner("\nunion all\n");
        for (Reading reading : readings) {
            Map<String, List<Map<String, String>>> alike = new LinkedHashMap<>();
            for (Piece piece : reading.pieces) {
                if (when == When.ANY || !piece.onlyPast()) {
                    alike.computeIfAbsent(piece.lateral(), any -> new ArrayList<>())
                            .add(piece.values());
                }
            }
            alike.forEach((lateral, values) -> all.add("select l.* from argument a" + holding
                    + " cross join lateral unnest(" + holder + "." + reading.ids + ") s(id)" + look(lateral, values)));
        }
        return "\n" + all;
    }

    private static String look(String lateral, List<Map<String, String>> values) {
        String sql = ARGUMENT.matcher(lateral).replaceAll("a.$1");
        if (values.size() == 1) {
            return " cross join lateral ("
                    + VALUE.matcher(sql).replaceAll(name -> values.get(0).get(name.group(1))) + ") l";
        }
        List<String> names = values.get(0).keySet().stream().sorted().toList();
        String rows = values.stream()
                .map(each -> names.stream().map(each::get).collect(Collectors.joining(", ", "(", ")")))
                .collect(Collectors.joining(", "));
        return " cross join (values " + rows + ") k(" + String.join(", ", names) + ") cross join lateral ("
                + VALUE.matcher(sql).replaceAll("k.$1") + ") l";
    }
}
