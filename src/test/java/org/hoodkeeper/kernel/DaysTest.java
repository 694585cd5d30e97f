package org.hoodkeeper.kernel;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import org.junit.jupiter.api.Test;

class DaysTest {

    private static final ZoneId LONDON = ZoneId.of("Europe/London");

    /** In Santiago the clock jumped from midnight to one o'clock, local time four hours behind until then. */
    @Test
    void aDayWithoutMidnightBeginsWhereTheClockLands() {
        ZoneId santiago = ZoneId.of("America/Santiago");
        assertThat(Days.startOf(LocalDate.of(2022, 9, 11), santiago)).isEqualTo(Instant.parse("2022-09-11T04:00:00Z"));
    }

    @Test
    void askedAgainADayBeginsAtTheSameInstant() {
        LocalDate autumn = LocalDate.of(2026, 10, 25);
        assertThat(Days.startOf(autumn, LONDON)).isEqualTo(Instant.parse("2026-10-24T23:00:00Z"));
        assertThat(Days.startOf(autumn, LONDON)).isEqualTo(Instant.parse("2026-10-24T23:00:00Z"));
        assertThat(Days.endOf(autumn, LONDON)).isEqualTo(Instant.parse("2026-10-26T00:00:00Z"));
    }

    @Test
    void daysFarAwayHaveTheirBeginningToo() {
        assertThat(Days.startOf(LocalDate.of(1999, 12, 31), LONDON)).isEqualTo(Instant.parse("1999-12-31T00:00:00Z"));
        assertThat(Days.endOf(LocalDate.of(1999, 12, 31), LONDON)).isEqualTo(Instant.parse("2000-01-01T00:00:00Z"));
        assertThat(Days.endOf(LocalDate.of(2049, 12, 31), LONDON)).isEqualTo(Instant.parse("2050-01-01T00:00:00Z"));
        assertThat(Days.startOf(LocalDate.of(2090, 7, 1), LONDON)).isEqualTo(Instant.parse("2090-06-30T23:00:00Z"));
    }
}
