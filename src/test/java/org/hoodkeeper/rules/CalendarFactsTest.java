package org.hoodkeeper.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.time.temporal.IsoFields;
import org.junit.jupiter.api.Test;

/** What the platform's calendar does at month ends, as far as rules lean on it or must not. Computed with java.time, JDK 17. */
class CalendarFactsTest {

    /** The reason why dueness is decided by adding and never by counting between. */
    @Test
    void countingBetweenDisagreesWithAdding() {
        LocalDate leapDay = LocalDate.parse("2024-02-29");
        assertThat(leapDay.plusYears(1)).isEqualTo("2025-02-28");
        assertThat(ChronoUnit.YEARS.between(leapDay, LocalDate.parse("2025-02-28")))
                .isZero();
        LocalDate monthEnd = LocalDate.parse("2024-01-31");
        assertThat(monthEnd.plusMonths(1)).isEqualTo("2024-02-29");
        assertThat(ChronoUnit.MONTHS.between(monthEnd, LocalDate.parse("2024-02-29")))
                .isZero();
    }

    /** The reason why a rhythm counts from its first anchor. */
    @Test
    void addingAgainAndAgainDrifts() {
        assertThat(LocalDate.parse("2023-01-31").plusMonths(1).plusMonths(1)).isEqualTo("2023-03-28");
        assertThat(LocalDate.parse("2023-01-31").plusMonths(2)).isEqualTo("2023-03-31");
        assertThat(LocalDate.parse("2024-02-29").plusYears(1).plusYears(3)).isEqualTo("2028-02-28");
        assertThat(LocalDate.parse("2024-02-29").plusYears(4)).isEqualTo("2028-02-29");
    }

    /** The platform's own documented examples: LocalDate.plusYears and plusMonths. */
    @Test
    void documentedExamples() {
        assertThat(LocalDate.parse("2008-02-29").plusYears(1)).isEqualTo("2009-02-28");
        assertThat(LocalDate.parse("2007-03-31").plusMonths(1)).isEqualTo("2007-04-30");
    }

    @Test
    void lastDaysOfAYearMayLieInTheNextYearsFirstWeek() {
        LocalDate monday = LocalDate.parse("2024-12-30");
        assertThat(monday.get(IsoFields.WEEK_OF_WEEK_BASED_YEAR)).isEqualTo(1);
        assertThat(monday.get(IsoFields.WEEK_BASED_YEAR)).isEqualTo(2025);
    }
}
