package org.hoodkeeper.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.hoodkeeper.rules.YearReading.ANNIVERSARY;
import static org.hoodkeeper.rules.YearReading.AT_MOST_365_DAYS;
import static org.hoodkeeper.rules.YearReading.CALENDAR_MONTHS;

import java.time.LocalDate;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class TermTests {

    /** Corresponding date, else last day of the month: Dodds v Walker [1981] 1 WLR 1027 (HL). Dates by java.time, JDK 17. */
    @ParameterizedTest
    @CsvSource({
        "2024-02-29, P12M, 2025-02-28",
        "2024-02-29, P24M, 2026-02-28",
        "2026-02-20, P24M, 2028-02-20",
        "2026-11-30, P3M,  2027-02-28",
        "2027-11-30, P3M,  2028-02-29",
        "2023-01-31, P1M,  2023-02-28",
        "2024-01-31, P1M,  2024-02-29",
        "2023-11-30, P3M,  2024-02-29",
        "2027-03-01, P12M, 2028-03-01",
        "2026-11-20, P7D,  2026-11-27",
        "2026-11-20, P1W,  2026-11-27",
    })
    void monthsEndOnTheCorrespondingDate(LocalDate event, String term, LocalDate lastDay) {
        assertThat(Term.of(term).lastDay(event, CALENDAR_MONTHS)).isEqualTo(lastDay);
        assertThat(Term.of(term).lastDay(event, AT_MOST_365_DAYS)).isEqualTo(lastDay);
    }

    /**
     * Two published readings of "annually" in 29 CFR 1910.134: OSHA letter of 23 December 1998 (on or before the anniversary;
     * its example 1 Feb 1999) and OSHA letter of 24 January 2007 (at most 365 days).
     */
    @ParameterizedTest
    @CsvSource({
        "1999-02-01, 2000-02-01, 2000-02-01, 2000-02-01",
        "2027-03-01, 2028-02-29, 2028-03-01, 2028-03-01",
        "2024-01-15, 2025-01-14, 2025-01-15, 2025-01-15",
        "2024-02-29, 2025-02-28, 2025-02-28, 2025-02-28",
    })
    void aYearHasThreeReadings(LocalDate event, LocalDate in365Days, LocalDate anniversary, LocalDate months) {
        Term year = Term.of("P1Y");
        assertThat(year.lastDay(event, AT_MOST_365_DAYS)).isEqualTo(in365Days);
        assertThat(year.lastDay(event, ANNIVERSARY)).isEqualTo(anniversary);
        assertThat(year.lastDay(event, CALENDAR_MONTHS)).isEqualTo(months);
    }

    /** Counted from the first anchor, a rhythm does not drift: 31 Jan + 2 months is 31 Mar (java.time, JDK 17). */
    @ParameterizedTest
    @CsvSource({"2023-01-31, P1M, 1, 2023-02-28", "2023-01-31, P1M, 2, 2023-03-31", "2024-02-29, P1Y, 4, 2028-02-29"})
    void aFixedRhythmCountsFromItsFirstAnchor(LocalDate anchor, String term, int n, LocalDate lastDay) {
        assertThat(Term.of(term).lastDay(anchor, n, ANNIVERSARY)).isEqualTo(lastDay);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "12 months", "P1Y6M", "P0D", "P-1M", "PT12H"})
    void anythingElseIsRefused(String text) {
        assertThatThrownBy(() -> Term.of(text)).isInstanceOf(Refused.class);
    }
}
