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

    @Test
    void aDayEndsWithItsLastSecond() {
        assertThat(Days.of(Instant.parse("2026-07-14T22:59:59Z"), LONDON)).isEqualTo(LocalDate.of(2026, 7, 14));
        assertThat(Days.of(Instant.parse("2026-07-14T23:00:00Z"), LONDON)).isEqualTo(LocalDate.of(2026, 7, 15));
        assertThat(Days.of(Instant.parse("2026-12-31T23:59:59.999Z"), LONDON)).isEqualTo(LocalDate.of(2026, 12, 31));
        ZoneId denver = ZoneId.of("America/Denver");
        assertThat(Days.of(Instant.parse("2026-01-01T06:59:59Z"), denver)).isEqualTo(LocalDate.of(2025, 12, 31));
        assertThat(Days.of(Instant.parse("2026-01-01T07:00:00Z"), denver)).isEqualTo(LocalDate.of(2026, 1, 1));
        ZoneId kiritimati = ZoneId.of("Pacific/Kiritimati");
        assertThat(Days.of(Instant.parse("2026-01-01T10:00:00Z"), kiritimati)).isEqualTo(LocalDate.of(2026, 1, 2));
    }

    @Test
    void theDayOfAClockChangeIsThatOfTheClockOnTheWall() {
        assertThat(Days.of(Instant.parse("2026-10-24T22:59:59Z"), LONDON)).isEqualTo(LocalDate.of(2026, 10, 24));
        assertThat(Days.of(Instant.parse("2026-10-25T23:59:59Z"), LONDON)).isEqualTo(LocalDate.of(2026, 10, 25));
        assertThat(Days.of(Instant.parse("2026-10-26T00:00:00Z"), LONDON)).isEqualTo(LocalDate.of(2026, 10, 26));
    }

    /** In St John's the clock went from one minute past midnight back into the day before. */
    @Test
    void aDayCanBeginTwice() {
        ZoneId stJohns = ZoneId.of("America/St_Johns");
        assertThat(Days.of(Instant.parse("2009-11-01T02:30:30Z"), stJohns)).isEqualTo(LocalDate.of(2009, 11, 1));
        assertThat(Days.of(Instant.parse("2009-11-01T02:31:00Z"), stJohns)).isEqualTo(LocalDate.of(2009, 10, 31));
        assertThat(Days.of(Instant.parse("2009-11-01T03:30:00Z"), stJohns)).isEqualTo(LocalDate.of(2009, 11, 1));
    }

    /** Samoa went over the date line and left out the last day but one of 2011. */
    @Test
    void aDayCanBeLeftOut() {
        ZoneId apia = ZoneId.of("Pacific/Apia");
        assertThat(Days.of(Instant.parse("2011-12-30T09:59:59Z"), apia)).isEqualTo(LocalDate.of(2011, 12, 29));
        assertThat(Days.of(Instant.parse("2011-12-30T10:00:00Z"), apia)).isEqualTo(LocalDate.of(2011, 12, 31));
    }
}
