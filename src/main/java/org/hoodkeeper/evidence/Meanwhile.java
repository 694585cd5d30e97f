package org.hoodkeeper.evidence;

import java.time.OffsetDateTime;
import java.util.UUID;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.Id;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.SiteId;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/**
 * What others told while a form was open. Model data, limits and assessments are stated whole: who states them from an older
 * state would undo another's change without having seen it.
 */
@Component
public class Meanwhile {

    private final JdbcTemplate jdbc;

    Meanwhile(JdbcTemplate jdbc) {
        this.jdbc = jdbc;
    }

    /** The record of a kind that was told last, corrections and withdrawals included: a form carries it as what it has seen. */
    @Transactional(readOnly = true)
    public @Nullable RecordId newest(SiteId site, Kind kind, Id about) {
        return jdbc
                .query(
                        """
                        select r.id from ledger_record r where r.site_id = ? and r.subject = ? and r.kind = ?
                        order by r.recorded_at desc, r.id desc limit 1""",
                        (row, n) -> new RecordId(row.getObject(1, UUID.class)),
                        site.value(),
                        about.value(),
                        kind.number())
                .stream()
                .findFirst()
                .orElse(null);
    }

    /**
     * Lets one at a time state it until the transaction ends, and refuses who has not seen what stands.
     *
     * @param scope looks at this scope alone; none for every one
     * @param seen the newest record when the form was opened; none where there was none
     * @throws Refused {@code meanwhile.told} with the time at which somebody told something since
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public void requireSeen(SiteId site, Kind kind, Id about, @Nullable String scope, @Nullable RecordId seen) {
        jdbc.query(
                "select pg_advisory_xact_lock(hashtextextended('stated ' || ? || ' ' || ? || ' ' || ?, 0))",
                row -> {},
                site.toString(),
                kind.number(),
                about.toString());
        jdbc
                .query(
                        """
                        select r.recorded_at from ledger_record r
                        where r.site_id = ? and r.subject = ? and r.kind = ? and (?::text is null or r.scope = ?)
                          and (r.recorded_at, r.id) > (coalesce((
                                  select s.recorded_at from ledger_record s
                                  where s.site_id = r.site_id and s.id = ?::uuid and s.subject = r.subject
                                    and s.kind = r.kind), '-infinity'), coalesce(?::uuid, r.id))
                        order by r.recorded_at desc limit 1""",
                        (row, n) -> row.getObject(1, OffsetDateTime.class).toInstant(),
                        site.value(),
                        about.value(),
                        kind.number(),
                        scope,
                        scope,
                        seen == null ? null : seen.value(),
                        seen == null ? null : seen.value())
                .stream()
                .findFirst()
                .ifPresent(at -> {
                    throw new Refused("meanwhile.told", at);
                });
    }
}
