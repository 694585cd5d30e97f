package org.hoodkeeper.ledger;

import java.sql.Timestamp;
import java.time.Duration;
import java.time.Instant;
import org.springframework.jdbc.core.JdbcTemplate;

/** How far back somebody may still be writing: whoever seals takes nothing later, so that none can appear before it. */
public final class RunningWriters {

    /** The clock is read before the list of writers: a writer missing from the list will be given a later time. */
    private static final String OLDEST = """
            with seen as materialized (select clock_timestamp() as at)
            select least((select at from seen),
                         (select min(a.xact_start) from pg_stat_activity a
                          where a.datname = current_database() and a.backend_xid is not null
                            and a.pid <> pg_backend_pid() and (select at from seen) is not null))""";

    /** The same in the service's time, which a rehearsal moves. */
    private static final String TOLD_FROM = """
            with seen as materialized (select clock_timestamp() as at)
            select service_now() - (clock_timestamp() - least((select at from seen),
                (select min(a.xact_start) from pg_stat_activity a
                 where a.datname = current_database() and a.backend_xid is not null
                   and a.pid <> pg_backend_pid() and (select at from seen) is not null)))""";

    /** Between two readings of the clock within one statement. */
    public static final Duration SLACK = Duration.ofMillis(5);

    private RunningWriters() {}

    /**
     * Every entry that a statement begun after this one does not see was told, or will be, at this time or later. Ask in a
     * transaction of its own, or first in one that is not repeatable read.
     */
    public static Instant toldFrom(JdbcTemplate jdbc) {
        return Ledger.instant(jdbc.queryForObject(TOLD_FROM, Timestamp.class)).minus(SLACK);
    }

    /**
     * The begin of the oldest transaction that writes; the present time when none does. The database keeps the list of writers
     * for the rest of the transaction: ask once in each.
     */
    public static Instant oldest(JdbcTemplate jdbc) {
        return Ledger.instant(jdbc.queryForObject(OLDEST, Timestamp.class));
    }
}
