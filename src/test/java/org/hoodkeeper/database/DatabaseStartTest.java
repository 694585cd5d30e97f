package org.hoodkeeper.database;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.jdbc.core.simple.JdbcClient;

@SpringBootTest
class DatabaseStartTest {

    @Autowired
    JdbcClient jdbc;

    @Autowired
    Clock clock;

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    @Test
    void theServiceSignsInAsItsOwnRole() {
        assertThat(jdbc.sql("select current_user").query(String.class).single()).isEqualTo("hoodkeeper_app");
    }

    @Test
    void theClockOfTheServiceAndOfTheDatabaseAreSetTogether() {
        TestClock.set(Instant.parse("2031-02-03T04:05:06Z"));
        Instant there = jdbc.sql("select service_now()")
                .query(OffsetDateTime.class)
                .single()
                .toInstant();
        assertThat(Duration.between(Instant.parse("2031-02-03T04:05:06Z"), there))
                .isBetween(Duration.ZERO, Duration.ofSeconds(5));
        assertThat(Duration.between(there, clock.instant())).isBetween(Duration.ZERO, Duration.ofSeconds(5));
    }
}
