package org.hoodkeeper.database;

import org.springframework.boot.health.contributor.Health;
import org.springframework.boot.health.contributor.HealthIndicator;

/** Says on the health page whether the grants that protect the ledger bind the service. */
final class DatabaseHealth implements HealthIndicator {

    private final Database database;

    DatabaseHealth(Database database) {
        this.database = database;
    }

    @Override
    public Health health() {
        Health.Builder health =
                Health.up().withDetail("database", database.kind().name());
        return database.users() == Database.Users.SEPARATE
                ? health.withDetail("users", "separate").build()
                : health.withDetail("users", "one")
                        .withDetail(
                                "warning",
                                "One database user does everything (hoodkeeper.single-database-user=accept):"
                                        + " grants and row security do not bind the service.")
                        .build();
    }
}
