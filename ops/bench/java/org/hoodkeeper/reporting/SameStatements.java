package org.hoodkeeper.reporting;

import java.sql.Array;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.sql.Timestamp;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hoodkeeper.assessment.OtherWays;
import org.hoodkeeper.assessment.Reason;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.SiteId;
import org.jspecify.annotations.Nullable;

/**
 * The statements that the service sends for one question, in one transaction on one connection, with every column of every row
 * read and nothing judged: what a question costs without the service. Where the answer is no, other ways are looked for as far as
 * the service looks, which its answer tells; the look is noted in the trail.
 */
public final class SameStatements {

    private static final String TOKEN = "select a.account_id, a.login, a.name, t.roles, t.token_id, t.last_used_at"
            + " from account_token t join account a on a.account_id = t.account_id"
            + " where t.site_id = ? and t.secret_hash = ? and t.revoked_at is null and a.disabled_at is null";
    private static final String ROLES = "select r.site_id, r.account_id, r.role, r.worker_id, r.employer"
            + " from account_role r join account a on a.account_id = r.account_id"
            + " where r.site_id = ? and r.account_id = ? and a.disabled_at is null";

    private static final String SEEN = "insert into audit_event (site_id, recorded_at, event_id, kind, actor, subject, source, detail)"
            + " values (?, audit_clock(?), ?, 'person.seen', ?, ?, null, 'ask')";

    private static final int BODY = 10;
    private static final Pattern MODEL = Pattern.compile("\"model\": ?\"([0-9a-f-]{36})\"");
    private static final Pattern SIZE = Pattern.compile("\"size\": ?\"([^\"]*)\"");
    private static final Pattern STORE = Pattern.compile("\"store\": ?\"([^\"]*)\"");

    private final Connection connection;
    private final SiteId site;
    private final byte[] secretHash;
    private final Instant from;

    public SameStatements(Connection connection, SiteId site, byte[] secretHash, Instant from) throws SQLException {
        this.connection = connection;
        this.site = site;
        this.secretHash = secretHash;
        this.from = from;
        connection.setAutoCommit(false);
    }

    /**
     * What the service answered where it said no: from that follows how far it looked.
     *
     * @param found labels of the other sets that it found
     */
    public record Refusal(List<Reason> reasons, Set<String> found) {}

    /**
     * @param refusal none for somebody who is cleared
     * @return how many rows were read
     */
    public int ask(String worker, String task, String set, @Nullable Refusal refusal) throws SQLException {
        int rows = 0;
        try (Statement begin = connection.createStatement()) {
            begin.execute("set transaction isolation level repeatable read;"
                    + " set local plan_cache_mode = force_generic_plan;"
                    + " select set_config('hoodkeeper.site', '" + site.value() + "', true)");
        }
        UUID account = null;
        try (PreparedStatement token = connection.prepareStatement(TOKEN)) {
            token.setObject(1, site.value());
            token.setBytes(2, secretHash);
            try (ResultSet row = token.executeQuery()) {
                row.next();
                account = row.getObject(1, UUID.class);
            }
        }
        try (PreparedStatement roles = connection.prepareStatement(ROLES)) {
            roles.setObject(1, site.value());
            roles.setObject(2, account);
            rows += read(roles);
        }
        UUID[] found = new UUID[3];
        Map<String, String> models = new HashMap<>();
        Timestamp now;
        try (PreparedStatement names = connection.prepareStatement(AskedNames.BY_NAME)) {
            names.setObject(1, site.value());
            names.setString(2, worker);
            names.setString(3, task);
            names.setString(4, set);
            try (ResultSet row = names.executeQuery()) {
                row.next();
                now = row.getTimestamp(1);
                found[0] = row.getObject(2, UUID.class);
                found[1] = row.getObject(5, UUID.class);
                found[2] = row.getObject(6, UUID.class);
                UUID[] ids = (UUID[]) row.getArray(8).getArray();
                String[] codes = (String[]) row.getArray(9).getArray();
                for (int i = 0; i < ids.length; i++) {
                    models.put(codes[i], ids[i].toString());
                }
            }
        }
        Seen seen = new Seen();
        UUID[][] first = {{found[0]}, {found[2]}, {found[1]}, {site.value()}, {}};
        rows += records(Deciding.AT_ONCE, first, now, seen);
        if (refusal != null) {
            rows += otherWays(refusal, found, models, now, seen);
        }
        note(account, found[0]);
        connection.commit();
        return rows;
    }

    /** What the rows read for the question say that steers the search for other ways. */
    private static final class Seen {
        private final Set<UUID> posted = new HashSet<>();
        private final Set<String> trained = new HashSet<>();
        private String model = "";
        private String sizeAndStore = "";

        private void see(int kind, ResultSet row, String body) throws SQLException {
            if (kind == Kind.POSTING.number()) {
                posted.add(row.getObject(4, UUID.class));
            } else if (kind == Kind.TRAINING.number() && body.contains("\"PASS\"") && body.contains("\"demonstrated\":true")) {
                trained.add(row.getString(5));
            } else if (kind == Kind.SET.number()) {
                model = field(MODEL, body);
                sizeAndStore = "/" + field(SIZE, body) + "/" + field(STORE, body);
            }
        }
    }

    private static String field(Pattern pattern, String body) {
        Matcher found = pattern.matcher(body);
        return found.find() ? found.group(1) : "";
    }

    private int otherWays(Refusal refusal, UUID[] found, Map<String, String> models, Timestamp now, Seen seen)
            throws SQLException {
        int rows = 0;
        List<String> hopeful = new ArrayList<>();
        if (OtherWays.anotherSetMayHelp(refusal.reasons())) {
            // this site's rule set asks for training whatever the device
            seen.trained.forEach(code -> hopeful.add(models.get(code)));
            if (!OtherWays.sameModelMayHelp(refusal.reasons())) {
                hopeful.remove(seen.model);
            }
        }
        Map<UUID, String> shelf = hopeful.isEmpty()
                ? Map.of()
                : another(found[2], hopeful.stream().map(model -> model + seen.sizeAndStore).toList());
        seen.posted.remove(found[1]);
        UUID[] others = OtherWays.anotherTaskMayHelp(refusal.reasons())
                ? seen.posted.toArray(UUID[]::new)
                : new UUID[0];
        boolean tasksRead = others.length == 0;
        List<UUID> sets = new ArrayList<>(shelf.keySet());
        int read = 0;
        int ways = 0;
        while (ways < Alternatives.MOST && (read < sets.size() || !tasksRead)) {
            List<UUID> some = sets.subList(read, read == 0 ? Math.min(Alternatives.FIRST, sets.size()) : sets.size());
            read += some.size();
            boolean last = read == sets.size() && (read > Alternatives.FIRST || some.isEmpty());
            UUID[][] more = {some.toArray(UUID[]::new), last ? others : new UUID[0], {}};
            rows += records(Deciding.MORE, more, now, null);
            tasksRead |= last;
            ways += (int) some.stream()
                    .filter(one -> refusal.found().contains(shelf.get(one)))
                    .count();
        }
        return rows;
    }

    private int records(Reading.Statement what, UUID[][] ids, Timestamp now, @Nullable Seen seen) throws SQLException {
        try (PreparedStatement records = connection.prepareStatement(what.ahead())) {
            records.setObject(1, site.value());
            records.setTimestamp(2, Timestamp.from(from));
            records.setTimestamp(3, Timestamp.from(Instant.parse("9999-01-01T00:00:00Z")));
            records.setTimestamp(4, now);
            for (int i = 0; i < ids.length; i++) {
                Array array = connection.createArrayOf("uuid", ids[i]);
                records.setArray(5 + i, array);
            }
            int rows = 0;
            try (ResultSet row = records.executeQuery()) {
                while (row.next()) {
                    int kind = row.getInt(1);
                    for (int i = 2; i < BODY; i++) {
                        row.getObject(i);
                    }
                    String body = row.getString(BODY);
                    if (seen != null) {
                        seen.see(kind, row, body);
                    }
                    rows++;
                }
            }
            return rows;
        }
    }

    /** Those on the shelf that could take the set's place, with their labels. */
    private Map<UUID, String> another(UUID set, List<String> offers) throws SQLException {
        Map<UUID, String> sets = new LinkedHashMap<>();
        try (PreparedStatement shelf = connection.prepareStatement(Alternatives.IN_STORE)) {
            shelf.setObject(1, site.value());
            shelf.setObject(2, set);
            shelf.setTimestamp(3, Timestamp.from(from));
            shelf.setArray(4, connection.createArrayOf("text", offers.toArray()));
            shelf.setString(5, "");
            shelf.setInt(6, Alternatives.CANDIDATES);
            try (ResultSet row = shelf.executeQuery()) {
                while (row.next()) {
                    sets.put(row.getObject(1, UUID.class), row.getString(2));
                }
            }
        }
        return sets;
    }

    private void note(UUID account, UUID person) throws SQLException {
        try (PreparedStatement seen = connection.prepareStatement(SEEN)) {
            seen.setObject(1, site.value());
            seen.setObject(2, site.value());
            seen.setObject(3, UUID.randomUUID());
            seen.setObject(4, account);
            seen.setObject(5, person);
            seen.executeUpdate();
        }
    }

    private static int read(PreparedStatement statement) throws SQLException {
        int rows = 0;
        try (ResultSet row = statement.executeQuery()) {
            int columns = row.getMetaData().getColumnCount();
            while (row.next()) {
                for (int i = 1; i <= columns; i++) {
                    row.getObject(i);
                }
                rows++;
            }
        }
        return rows;
    }

    /** The plan of the loading statement for one question, with buffers: kept beside the queries it proves. */
    public String plan(String worker, String task, String set) throws SQLException {
        StringBuilder plan = new StringBuilder();
        ask(worker, task, set, null);
        try (Statement statement = connection.createStatement()) {
            statement.execute("select set_config('hoodkeeper.site', '" + site.value() + "', true)");
            int[] number = {0};
            String numbered = Pattern.compile("\\?")
                    .matcher(Deciding.AT_ONCE.ahead())
                    .replaceAll(match -> "\\$" + ++number[0]);
            statement.execute("set local plan_cache_mode = force_generic_plan");
            statement.execute("prepare question as " + numbered);
            String[] values = new String[5];
            try (ResultSet row = statement.executeQuery("select (select array[id] from worker where number = '" + worker
                    + "'), (select array[id] from kit_set where label = '" + set
                    + "'), (select array[id] from task where code = '" + task + "')")) {
                row.next();
                for (int i = 0; i < 3; i++) {
                    values[i] = row.getString(i + 1);
                }
            }
            String arguments = "'" + site.value() + "', '" + from + "', '9999-01-01', now(), '" + values[0] + "', '" + values[1]
                    + "', '" + values[2] + "', '{" + site.value() + "}', '{}'";
            statement.execute("execute question(" + arguments + ")");
            try (ResultSet row =
                    statement.executeQuery("explain (analyze, buffers) execute question(" + arguments + ")")) {
                while (row.next()) {
                    plan.append(row.getString(1)).append('\n');
                }
            }
            statement.execute("deallocate question");
        }
        connection.rollback();
        return plan.toString();
    }
}
