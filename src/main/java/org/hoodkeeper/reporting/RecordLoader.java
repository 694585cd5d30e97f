package org.hoodkeeper.reporting;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.time.Instant;
import java.util.Collection;
import java.util.HashMap;
import java.util.Map;
import java.util.UUID;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.ledger.FactJson;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.namedparam.NamedParameterJdbcTemplate;
import org.springframework.stereotype.Component;

/** Runs the loading statements. */
@Component
class RecordLoader {

    /** Beyond every record, and still a time that the database can hold. */
    private static final Instant FURTHEST = Instant.parse("9999-01-01T00:00:00Z");

    private final NamedParameterJdbcTemplate jdbc;

    RecordLoader(NamedParameterJdbcTemplate jdbc) {
        this.jdbc = jdbc;
    }

    /**
     * @param start the first instant that is judged
     * @param horizon records that begin from then on are left out
     * @param known told by then
     */
    record Cut(SiteId site, Instant start, Instant horizon, Instant known) {}

    /** @param ids arrays by parameter name */
    void load(Records into, String statement, Cut cut, Map<String, ? extends Collection<UUID>> ids) {
        if (ids.values().stream().allMatch(Collection::isEmpty)) {
            return;
        }
        Map<String, @Nullable Object> parameters = new HashMap<>();
        parameters.put("site", cut.site().value());
        parameters.put("start", Timestamp.from(cut.start()));
        parameters.put("horizon", Timestamp.from(cut.horizon().isBefore(FURTHEST) ? cut.horizon() : FURTHEST));
        parameters.put("known", Timestamp.from(cut.known().isBefore(FURTHEST) ? cut.known() : FURTHEST));
        ids.forEach((name, values) -> parameters.put(name, values.toArray(new UUID[0])));
        jdbc.query(statement, parameters, row -> {
            Kind kind = Kind.ofNumber(row.getInt(1));
            into.add(kind, told(kind, row));
        });
    }

    private static Told<Fact> told(Kind kind, ResultSet row) throws SQLException {
        Timestamp until = row.getTimestamp(7);
        UUID corrects = row.getObject(9, UUID.class);
        return new Told<>(
                new RecordId(row.getObject(2, UUID.class)),
                row.getObject(3, UUID.class),
                row.getObject(4, UUID.class),
                row.getString(5),
                row.getTimestamp(6).toInstant(),
                until == null ? null : until.toInstant(),
                row.getTimestamp(8).toInstant(),
                corrects == null ? null : new RecordId(corrects),
                FactJson.read(row.getString(10), kind.type()));
    }
}
