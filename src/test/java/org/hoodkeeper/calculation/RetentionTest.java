package org.hoodkeeper.calculation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.time.Period;
import java.util.List;
import org.junit.jupiter.api.Test;

class RetentionTest {

    /** COSHH 2002 regulation 11(3): health record at least 40 years from the last entry. */
    @Test
    void healthRecordOfALeaver() {
        Retention kept = Retention.counted(day("2026-05-12"), Period.ofYears(40));
        assertThat(kept.lastDay()).isEqualTo("2066-05-12");
        assertThat(kept.isOverOn(day("2066-05-12"))).isFalse();
        assertThat(kept.isOverOn(day("2066-05-13"))).isTrue();
    }

    /** COSHH 2002 regulation 9(4): examination records at least 5 years from the date made. */
    @Test
    void examination() {
        assertThat(Retention.counted(day("2026-10-01"), Period.ofYears(5)).lastDay())
                .isEqualTo("2031-10-01");
    }

    /** java.time, computed: 29 February 2024 + 5 years is 28 February 2029, + 30 years 28 February 2054, + 40 years the 29th. */
    @Test
    void leapDay() {
        assertThat(Retention.counted(day("2024-02-29"), Period.ofYears(5)).lastDay())
                .isEqualTo("2029-02-28");
        assertThat(Retention.counted(day("2024-02-29"), Period.ofYears(30)).lastDay())
                .isEqualTo("2054-02-28");
        assertThat(Retention.counted(day("2024-02-29"), Period.ofYears(40)).lastDay())
                .isEqualTo("2064-02-29");
    }

    /** 29 CFR 1910.1020(d)(1)(i): employment and 30 years; no end while the person is employed. */
    @Test
    void stillEmployedHasNoEnd() {
        Retention employed = Retention.counted(null, Period.ofYears(30));
        assertThat(employed.lastDay()).isNull();
        assertThat(employed.isOverOn(day("9999-12-31"))).isFalse();
    }

    /** 29 CFR 1910.134(m)(2)(ii): until the next fit test. */
    @Test
    void keptUntilReplaced() {
        assertThat(Retention.untilReplaced(null).isOverOn(day("2040-01-01"))).isFalse();
        assertThat(Retention.untilReplaced(day("2027-03-02")).isOverOn(day("2027-03-03")))
                .isTrue();
    }

    @Test
    void longestOfAllDecidesAndAHoldOutlastsThem() {
        Retention five = Retention.counted(day("2026-10-01"), Period.ofYears(5));
        Retention forty = Retention.counted(day("2026-05-12"), Period.ofYears(40));
        assertThat(Retention.longest(List.of(forty, five)).lastDay()).isEqualTo("2066-05-12");
        assertThat(Retention.longest(List.of(five, Retention.hold(), forty)).lastDay())
                .isNull();
    }

    @Test
    void senselessSpansAreRefused() {
        assertThatThrownBy(() -> Retention.counted(day("2026-10-01"), Period.ofYears(-1)))
                .hasMessageContaining("calculation.retention.negative");
        assertThatThrownBy(() -> Retention.longest(List.of())).hasMessageContaining("calculation.retention.none");
    }

    private static LocalDate day(String text) {
        return LocalDate.parse(text);
    }
}
