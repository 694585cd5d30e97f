package org.hoodkeeper.database;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import org.springframework.boot.health.contributor.Health;
import org.springframework.boot.health.contributor.HealthIndicator;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * Raises the alarm when the service's clock and the database's differ by 2 s or more: "now" in a question and the time
 * on a record would then tell two stories. Out of service, so that monitoring turns red; readiness does not depend on
 * it, so that nobody is locked out of the answer for it.
 */
final class ClockHealth implements HealthIndicator {

    private static final Duration ALARM = Duration.ofSeconds(2);

    private final Clock clock;
    private final JdbcClient jdbc;

    ClockHealth(Clock clock, JdbcClient jdbc) {
        this.clock = clock;
        this.jdbc = jdbc;
    }

    @Override
    public Health health() {
        Instant before = clock.instant();
        Instant there = jdbc.sql("select service_now()")
                .query(OffsetDateTime.class)
                .single()
                .toInstant();
        Instant after = clock.instant();
        return between(before, there, after);
    }

    /** A database time between the two readings agrees; the way there and back is not counted against it. */
    static Health between(Instant before, Instant there, Instant after) {
        Duration apart = Duration.ZERO;
        if (there.isBefore(before)) {
            apart = Duration.between(there, before);
        } else if (there.isAfter(after)) {
            apart = Duration.between(after, there);
        }
        Health.Builder health = apart.compareTo(ALARM) < 0 ? Health.up() : Health.outOfService();
        return health.withDetail("secondsApart", apart.toMillis() / 1000.0)
                .withDetail("serviceTime", after)
                .build();
    }
}
