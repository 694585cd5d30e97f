package org.hoodkeeper.database;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.Map;
import org.flywaydb.core.Flyway;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.health.contributor.Status;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.jdbc.core.simple.JdbcClient;

@Tag("containers")
@SpringBootTest(classes = OnlyDatabase.class)
class ServiceTimeTest {

    @Autowired
    JdbcClient jdbc;

    @Autowired
    Clock clock;

    @Autowired
    ClockHealth health;

    @Autowired
    Rehearsal rehearsal;

    @AfterEach
    void realTime() {
        TestClock.reset();
    }

    @Test
    void theClockOfTheServiceAndOfTheDatabaseAreSetTogether() {
        TestClock.set(Instant.parse("2031-02-03T04:05:06.000007Z"));
        assertThat(there()).isBetween("2031-02-03T04:05:06.000007Z", "2031-02-03T04:05:26Z");
        assertThat(clock.instant()).isBetween("2031-02-03T04:05:06.000007Z", "2031-02-03T04:05:26Z");
        assertThat(clock.withZone(ZoneId.of("Europe/London")).instant())
                .isBetween("2031-02-03T04:05:06.000007Z", "2031-02-03T04:05:26Z");
        assertThat(health.health().getStatus()).isEqualTo(Status.UP);
    }

    @Test
    void timeIsKeptToTheMicrosecondAsInTheDatabase() {
        for (int reading = 0; reading < 1000; reading++) {
            assertThat(clock.instant().getNano() % 1000).isZero();
        }
    }

    @Test
    void twoSecondsApartRaiseTheAlarm() {
        Instant asked = Instant.parse("2026-06-01T10:00:00Z");
        Instant answered = Instant.parse("2026-06-01T10:00:00.010Z");
        assertThat(ClockHealth.between(asked, Instant.parse("2026-06-01T10:00:02.009999Z"), answered)
                        .getStatus())
                .isEqualTo(Status.UP);
        assertThat(ClockHealth.between(asked, Instant.parse("2026-06-01T10:00:02.010Z"), answered)
                        .getStatus())
                .isEqualTo(Status.OUT_OF_SERVICE);
        assertThat(ClockHealth.between(asked, Instant.parse("2026-06-01T09:59:58.000001Z"), answered)
                        .getStatus())
                .isEqualTo(Status.UP);
        assertThat(ClockHealth.between(asked, Instant.parse("2026-06-01T09:59:58Z"), answered)
                        .getStatus())
                .isEqualTo(Status.OUT_OF_SERVICE);
    }

    @Test
    void aDatabaseWhoseClockWasMovedAloneRaisesTheAlarm() throws SQLException {
        new ClockTable(TestDatabase.shared().owner()).setTo(Instant.now().plusSeconds(3));
        assertThat(health.health().getStatus()).isEqualTo(Status.OUT_OF_SERVICE);
    }

    @Test
    void realTimeCannotBeMoved() {
        assertThatExceptionOfType(Refused.class)
                .isThrownBy(() -> rehearsal.moveTo(Instant.parse("2031-01-01T00:00:00Z")))
                .satisfies(refused -> assertThat(refused.code()).isEqualTo("rehearsal.off"));
    }

    @Test
    void aRehearsalMovesForwardAndNeverBack() throws SQLException {
        ClockTable table = migrated();
        ServiceClock time = new ServiceClock(table.setTo(Instant.parse("2027-03-01T06:30:00Z")));
        Rehearsal trial = new Rehearsal(time, table, true);

        trial.moveTo(Instant.parse("2027-03-01T14:00:00Z"));

        assertThat(time.instant()).isBetween("2027-03-01T14:00:00Z", "2027-03-01T14:00:20Z");
        assertThat(table.reached().orElseThrow()).isBetween("2027-03-01T14:00:10Z", "2027-03-01T14:00:30Z");

        assertThatExceptionOfType(Refused.class)
                .isThrownBy(() -> trial.moveTo(Instant.parse("2027-03-01T13:59:59Z")))
                .satisfies(refused -> {
                    assertThat(refused.code()).isEqualTo("rehearsal.back");
                    assertThat(refused.arguments()[0]).isEqualTo(Instant.parse("2027-03-01T13:59:59Z"));
                });
        assertThat(time.instant()).isBetween("2027-03-01T14:00:00Z", "2027-03-01T14:00:20Z");
    }

    @Test
    void keptDataNeverSeesTheClockGoBack() throws SQLException {
        ClockTable table = migrated();
        table.setTo(Instant.parse("2041-03-01T06:30:00Z"));
        table.keepBoundExactly();

        new StartTime(Instant.parse("2041-03-01T06:31:00Z")).refuseGoingBack(table);
        assertThatExceptionOfType(CannotStart.class)
                .isThrownBy(() -> new StartTime(Instant.parse("2041-03-01T06:29:59Z")).refuseGoingBack(table))
                .withMessageContaining("HOODKEEPER_CLOCK=2041-03-01T06:29:59Z is earlier than 2041-03-01T06:30:0");
        assertThatExceptionOfType(CannotStart.class)
                .isThrownBy(() -> new StartTime(null).refuseGoingBack(table))
                .withMessageContaining("real time is earlier");
    }

    @Test
    void afterAKillRealTimeCatchesUpWithTheKeptBound() throws SQLException {
        ClockTable table = migrated();
        table.keepBoundAhead();
        Instant bound = table.reached().orElseThrow();
        assertThat(bound).isAfter(Instant.now());
        new StartTime(null).refuseGoingBack(table);
        assertThat(Instant.now()).isAfterOrEqualTo(bound.minusMillis(1));
    }

    private static ClockTable migrated() {
        Database database = TestDatabase.empty();
        Flyway.configure()
                .dataSource(
                        database.owner().url(),
                        database.owner().user(),
                        database.owner().password())
                .placeholders(Map.of(
                        "appRole",
                        database.app().user(),
                        "verifierRole",
                        database.verifierRole(),
                        "eraserRole",
                        database.eraserRole()))
                .load()
                .migrate();
        return new ClockTable(database.owner());
    }

    private Instant there() {
        return jdbc.sql("select service_now()")
                .query(OffsetDateTime.class)
                .single()
                .toInstant();
    }
}
