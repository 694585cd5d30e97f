package org.hoodkeeper.calculation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.time.Instant;
import java.time.ZonedDateTime;
import java.util.Collections;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.kernel.Interval;
import org.junit.jupiter.api.Test;

/** A shift ends after 8 hours without wear: common practice, no source. */
class WearTimeTest {

    private static final Duration PAUSE = Duration.ofHours(8);

    @Test
    void overlappingAndTouchingStretchesCountOnce() {
        WearTime wear = worn("07:30/09:30", "09:00/10:00", "10:00/10:15", "12:00/12:30");
        assertThat(wear.wornBy(at("13:00"))).isEqualTo(Duration.ofMinutes(195));
        assertThat(wear.wornBy(at("12:10"))).isEqualTo(Duration.ofMinutes(175));
        assertThat(wear.wornBy(at("07:30"))).isEqualTo(Duration.ZERO);
    }

    @Test
    void stretchInsideAnotherAddsNothing() {
        assertThat(worn("07:00/11:00", "08:00/09:00").wornBy(at("12:00"))).isEqualTo(Duration.ofHours(4));
    }

    @Test
    void orderOfTheRecordsDoesNotMatter() {
        List<Interval> all = intervals("07:30/09:30", "09:00/10:00", "12:00/12:30");
        List<Interval> reversed = all.stream().collect(Collectors.collectingAndThen(Collectors.toList(), list -> {
            Collections.reverse(list);
            return list;
        }));
        assertThat(new WearTime(reversed, PAUSE).wornBy(at("13:00")))
                .isEqualTo(new WearTime(all, PAUSE).wornBy(at("13:00")))
                .isEqualTo(Duration.ofMinutes(180));
    }

    /** Limit 4 h in a shift, worn 07:30 to 09:30: 2 h are left, a plan of 6 h reaches the limit after 2 h. */
    @Test
    void planReachesTheLimitAfterWhatIsLeft() {
        WearTime wear = worn("07:30/09:30");
        Duration limit = Duration.ofHours(4);
        assertThat(wear.remaining(limit, at("10:00"))).isEqualTo(Duration.ofHours(2));
        assertThat(wear.lastsUntil(limit, interval("10:00/16:00"))).isEqualTo(at("12:00"));
        assertThat(wear.lastsUntil(limit, interval("10:00/12:00"))).isEqualTo(at("12:00"));
        assertThat(wear.lastsUntil(limit, interval("10:00/11:00"))).isEqualTo(at("11:00"));
        assertThat(wear.lastsUntil(Duration.ofHours(2), interval("10:00/11:00")))
                .isEqualTo(at("10:00"));
    }

    @Test
    void pauseOfExactlyEightHoursEndsTheShift() {
        WearTime wear = worn("06:00/08:00", "16:00/17:00");
        assertThat(wear.wornBy(at("15:59"))).isEqualTo(Duration.ofHours(2));
        assertThat(wear.wornBy(at("16:00"))).isEqualTo(Duration.ZERO);
        assertThat(wear.wornBy(at("18:00"))).isEqualTo(Duration.ofHours(1));
    }

    @Test
    void shorterPauseKeepsTheShift() {
        assertThat(worn("06:00/08:00", "15:59/17:00").wornBy(at("17:00"))).isEqualTo(Duration.ofMinutes(181));
    }

    /** 24 Oct 2026 22:00 (+1) to 25 Oct 06:00 (+0) in London is 9 h: the clock goes back at 02:00 (IANA time zone data). */
    @Test
    void nightOverTheClockChangeHasNineHours() {
        Instant from =
                ZonedDateTime.parse("2026-10-24T22:00+01:00[Europe/London]").toInstant();
        Instant until =
                ZonedDateTime.parse("2026-10-25T06:00+00:00[Europe/London]").toInstant();
        WearTime wear = new WearTime(List.of(new Interval(from, until)), PAUSE);
        assertThat(wear.wornBy(until)).isEqualTo(Duration.ofHours(9));
    }

    @Test
    void overrunLeavesNothingAndNotLess() {
        assertThat(worn("06:00/12:00").remaining(Duration.ofHours(4), at("12:00")))
                .isEqualTo(Duration.ZERO);
        assertThat(worn().wornBy(at("12:00"))).isEqualTo(Duration.ZERO);
    }

    @Test
    void senselessLimitsAreRefused() {
        assertThatThrownBy(() -> new WearTime(List.of(), Duration.ZERO))
                .hasMessageContaining("calculation.shiftPause.notPositive");
        assertThatThrownBy(() -> worn().remaining(Duration.ofHours(-1), at("12:00")))
                .hasMessageContaining("calculation.wearLimit.negative");
    }

    private static WearTime worn(String... stretches) {
        return new WearTime(intervals(stretches), PAUSE);
    }

    private static List<Interval> intervals(String... stretches) {
        return Stream.of(stretches).map(WearTimeTest::interval).toList();
    }

    private static Interval interval(String stretch) {
        String[] ends = stretch.split("/");
        return new Interval(at(ends[0]), at(ends[1]));
    }

    private static Instant at(String time) {
        return Instant.parse("2026-06-03T" + time + ":00Z");
    }
}
