package org.hoodkeeper.calculation;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.List;
import org.hoodkeeper.kernel.Interval;
import org.junit.jupiter.api.Test;

/** NIOSH 2013-146, restated: before use, again after 4 hours, then every 2 hours. */
class FlowPromptsTest {

    @Test
    void sixAndAHalfHoursHavePromptsAtFourAndSix() {
        assertThat(of("2026-11-25T06:00:00Z", "2026-11-25T12:30:00Z"))
                .containsExactly(Instant.parse("2026-11-25T10:00:00Z"), Instant.parse("2026-11-25T12:00:00Z"));
    }

    @Test
    void aPromptAtTheEndIsNone() {
        assertThat(of("2026-11-25T06:00:00Z", "2026-11-25T10:00:00Z")).isEmpty();
        assertThat(of("2026-11-25T06:00:00Z", "2026-11-25T10:00:01Z"))
                .containsExactly(Instant.parse("2026-11-25T10:00:00Z"));
    }

    /** 22:00 at +1 plus four hours is 02:00 at +1, which reads 01:00 at +0. */
    @Test
    void theNightOfTheClockChangeCountsElapsedHours() {
        assertThat(of("2026-10-24T21:00:00Z", "2026-10-25T02:00:00Z"))
                .containsExactly(Instant.parse("2026-10-25T01:00:00Z"));
    }

    private static List<Instant> of(String from, String until) {
        return FlowPrompts.of(new Interval(Instant.parse(from), Instant.parse(until)));
    }
}
