package org.hoodkeeper.reporting;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.FactJson;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;

/** Runs the loading statements. */
@Component
class RecordLoader {

    /** Beyond every record, and still a time that the database can hold. */
    private static final Instant FURTHEST = Instant.parse("9999-01-01T00:00:00Z");

    private final JdbcTemplate jdbc;

    RecordLoader(JdbcTemplate jdbc) {
        this.jdbc = jdbc;
    }

    /**
     * @param start the first instant that is judged
     * @param horizon records that begin from then on are left out
     * @param known told by then
     */
    record Cut(SiteId site, Instant start, Instant horizon, Instant known) {

        private Object[] arguments(int more) {
            Object[] arguments = new Object[4 + more];
            arguments[0] = site.value();
            arguments[1] = Timestamp.from(start);
            arguments[2] = Timestamp.from(nearer(horizon));
            arguments[3] = Timestamp.from(nearer(known));
            return arguments;
        }

        private static Instant nearer(Instant instant) {
            return instant.isBefore(FURTHEST) ? instant : FURTHEST;
        }
    }

    /** A record as it was read, its fact still text: making the fact takes as long as reading, and needs no database. */
    record Row(
            Kind kind,
            UUID id,
            UUID subject,
            @Nullable UUID item,
            @Nullable String scope,
            Instant from,
            @Nullable Instant until,
            Instant recordedAt,
            @Nullable UUID corrects,
            String body) {

        private Told<Fact> told() {
            return new Told<>(
                    new RecordId(id),
                    subject,
                    item,
                    scope,
                    from,
                    until,
                    recordedAt,
                    corrects == null ? null : new RecordId(corrects),
                    FactJson.read(body, kind.type()));
        }
    }

    /** @param ids for each of the statement's names */
    void load(Records into, Reading.Statement statement, Cut cut, Map<String, ? extends Collection<UUID>> ids) {
        add(into, read(statement, cut, ids));
    }

    /** Makes facts of what was read. */
    static void add(Records into, List<Row> rows) {
        rows.forEach(row -> into.add(row.kind(), row.told()));
    }

    /** @param ids for each of the statement's names */
    List<Row> read(Reading.Statement statement, Cut cut, Map<String, ? extends Collection<UUID>> ids) {
        if (ids.values().stream().allMatch(Collection::isEmpty)) {
            return new ArrayList<>();
        }
        Object[] arguments = cut.arguments(statement.ids().size());
        for (int i = 0; i < statement.ids().size(); i++) {
            String name = statement.ids().get(i);
            arguments[4 + i] = Objects.requireNonNull(ids.get(name), name).toArray(new UUID[0]);
        }
        return jdbc.query(
                cut.start().isBefore(cut.known()) ? statement.past() : statement.ahead(),
                (row, n) -> row(row),
                arguments);
    }

    private static Row row(ResultSet row) throws SQLException {
        Timestamp until = row.getTimestamp(7);
        return new Row(
                Kind.ofNumber(row.getInt(1)),
                row.getObject(2, UUID.class),
                row.getObject(3, UUID.class),
                row.getObject(4, UUID.class),
                row.getString(5),
                row.getTimestamp(6).toInstant(),
                until == null ? null : until.toInstant(),
                row.getTimestamp(8).toInstant(),
                row.getObject(9, UUID.class),
                row.getString(10));
    }
}
