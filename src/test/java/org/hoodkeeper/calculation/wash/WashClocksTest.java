package org.hoodkeeper.calculation.wash;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.hoodkeeper.calculation.wash.WetContact.Mark.State.DRY;
import static org.hoodkeeper.calculation.wash.WetContact.Mark.State.WET;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WashClocksTest {

    private static final Duration TWO_MINUTES = Duration.ofMinutes(2);

    private static Instant at(String time) {
        return Instant.parse("2026-11-25T" + time + "Z");
    }

    private static WetContact.Mark mark(String time, WetContact.Mark.State state) {
        return new WetContact.Mark(at(time), state);
    }

    @Test
    void theClockRunsWhileItIsWet() {
        WetContact contact = WetContact.at(List.of(mark("18:00:00", WET)), TWO_MINUTES, at("18:01:20"));
        assertThat(contact.wet()).isEqualTo(Duration.ofSeconds(80));
        assertThat(contact.isReached()).isFalse();
        assertThat(WetContact.at(List.of(mark("18:00:00", WET)), TWO_MINUTES, at("18:02:00"))
                        .reachedAt())
                .isEqualTo(at("18:02:00"));
    }

    @Test
    void itBeginsAnewWhenItDriedTooEarly() {
        List<WetContact.Mark> marks = List.of(mark("18:00:00", WET), mark("18:01:59", DRY), mark("18:03:00", WET));
        assertThat(WetContact.at(marks, TWO_MINUTES, at("18:02:30")).begun()).isFalse();
        assertThat(WetContact.at(marks, TWO_MINUTES, at("18:04:59")).isReached())
                .isFalse();
        assertThat(WetContact.at(marks, TWO_MINUTES, at("18:05:00")).reachedAt())
                .isEqualTo(at("18:05:00"));
    }

    @Test
    void whatWasReachedStaysReachedWhenItDries() {
        List<WetContact.Mark> marks = List.of(mark("18:00:00", WET), mark("18:02:00", DRY));
        assertThat(WetContact.at(marks, TWO_MINUTES, at("19:00:00")).reachedAt())
                .isEqualTo(at("18:02:00"));
    }

    /** ISO 15883-1: ten minutes at 80, 70 and 60 °C; at 43 °C computed, and not counted below 65 °C. */
    @ParameterizedTest
    @CsvSource({"80, 600, 600", "70, 600, 60", "65, 600, 18.97", "60, 600, 0", "43, 600, 0", "90, 60, 600"})
    void lethalityOfMoistHeat(double celsius, double seconds, double a0) {
        assertThat(MoistHeat.a0(List.of(new MoistHeat.Stretch(celsius, seconds))))
                .isCloseTo(a0, within(0.01));
    }

    @Test
    void aTemperatureOfSixtyWouldBeSixAndOfFortyThreeAnEighth() {
        assertThat(MoistHeat.lethality(60) * 600).isCloseTo(6, within(0.001));
        assertThat(MoistHeat.lethality(43) * 600).isCloseTo(0.12, within(0.001));
    }

    /** Little's law: 92 returns a day that take three and a half hours each are 13.4 in the wash; plan room for 14. */
    @Test
    void setsInTheWash() {
        Duration lead = Duration.ofMinutes(210);
        assertThat(TurnRound.inside(92, lead)).isCloseTo(13.4167, within(0.0001));
        assertThat(TurnRound.room(92, lead)).isEqualTo(14);
        assertThat(TurnRound.room(96, Duration.ofHours(3))).isEqualTo(12);
    }

    /** Wash 10, contact 2, rinse 5, dry 90, test 8 minutes after 18:05: ready at 20:00. */
    @Test
    void aSharedSetIsReadyAtEightAtTheEarliest() {
        assertThat(TurnRound.earliest(
                        at("18:05:00"),
                        List.of(
                                Duration.ofMinutes(10),
                                Duration.ofMinutes(2),
                                Duration.ofMinutes(5),
                                Duration.ofMinutes(90),
                                Duration.ofMinutes(8))))
                .isEqualTo(at("20:00:00"));
    }
}
