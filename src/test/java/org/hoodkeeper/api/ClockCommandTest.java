package org.hoodkeeper.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.time.Instant;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.NullSource;
import org.junit.jupiter.params.provider.ValueSource;

class ClockCommandTest {

    @Test
    void anInstantSaysItsOffset() {
        assertThat(new ClockCommand("2027-03-01T06:30:00Z").to()).isEqualTo(Instant.parse("2027-03-01T06:30:00Z"));
        assertThat(new ClockCommand(" 2027-03-01T06:30:00-05:00 ").to())
                .isEqualTo(Instant.parse("2027-03-01T11:30:00Z"));
    }

    @ParameterizedTest
    @NullSource
    @ValueSource(strings = {"", "  "})
    void noInstantIsNamed(String nothing) {
        assertThatExceptionOfType(Refused.class)
                .isThrownBy(() -> new ClockCommand(nothing).to())
                .satisfies(refused -> assertThat(refused.code()).isEqualTo("rehearsal.instant.missing"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"2027-03-01", "2027-03-01T06:30:00", "tomorrow", "2027-02-30T06:30:00Z"})
    void aTimeWithoutOffsetOrAnImpossibleOneIsRefused(String text) {
        assertThatExceptionOfType(Refused.class)
                .isThrownBy(() -> new ClockCommand(text).to())
                .satisfies(refused -> {
                    assertThat(refused.code()).isEqualTo("rehearsal.instant.unreadable");
                    assertThat(refused.arguments()).containsExactly(text);
                });
    }
}
