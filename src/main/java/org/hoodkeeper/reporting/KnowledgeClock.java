package org.hoodkeeper.reporting;

import java.sql.Timestamp;
import java.time.Instant;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;

/**
 * "Now" as far as knowledge goes: the database's time, for it stamps what is told. Read first in a view's transaction, it lies
 * after every record that the view can see.
 */
@Component
public class KnowledgeClock {

    private final JdbcTemplate jdbc;

    KnowledgeClock(JdbcTemplate jdbc) {
        this.jdbc = jdbc;
    }

    public Instant now() {
        Timestamp now = jdbc.queryForObject("select service_now()", Timestamp.class);
        if (now == null) {
            throw new IllegalStateException("the database always has a time");
        }
        return now.toInstant();
    }
}
