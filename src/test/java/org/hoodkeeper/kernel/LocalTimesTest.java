package org.hoodkeeper.kernel;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import org.hoodkeeper.kernel.LocalTimes.Meaning;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.junit.jupiter.api.Test;

/**
 * Clock changes of 2026: Europe/London goes forward on 29 March at 01:00 and back on 25 October at 02:00; America/Denver
 * forward on 8 March at 02:00 and back on 1 November at 02:00. Source: IANA time zone database, files europe and
 * northamerica.
 */
class LocalTimesTest {

    static final ZoneId LONDON = ZoneId.of("Europe/London");
    static final ZoneId DENVER = ZoneId.of("America/Denver");

    @Test
    void anOrdinaryTimeHasOneMeaning() {
        Meaning meaning = LocalTimes.meaningOf(LocalDateTime.parse("2026-07-01T06:00"), LONDON);
        assertThat(meaning.isAmbiguous()).isFalse();
        assertThat(meaning.readings()).hasSize(1);
        assertThat(meaning.earlier().instant()).isEqualTo(Instant.parse("2026-07-01T05:00:00Z"));
        assertThat(meaning.earlier().offset()).isEqualTo(ZoneOffset.ofHours(1));
    }

    @Test
    void anOccurrencePickedForAnOrdinaryTimeChangesNothing() {
        assertThat(LocalTimes.instantOf(LocalDateTime.parse("2026-07-01T06:00"), LONDON, Occurrence.LATER))
                .isEqualTo(Instant.parse("2026-07-01T05:00:00Z"));
    }

    @Test
    void inLondonHalfPastOneOccursTwiceInOctober() {
        Meaning meaning = LocalTimes.meaningOf(LocalDateTime.parse("2026-10-25T01:30"), LONDON);
        assertThat(meaning.isAmbiguous()).isTrue();
        assertThat(meaning.readings())
                .extracting(
                        reading -> reading.instant().toString(),
                        reading -> reading.offset().getId())
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple("2026-10-25T00:30:00Z", "+01:00"),
                        org.assertj.core.groups.Tuple.tuple("2026-10-25T01:30:00Z", "Z"));
    }

    @Test
    void aRepeatedTimeIsAskedBackUntilOneIsPicked() {
        LocalDateTime typed = LocalDateTime.parse("2026-11-01T01:15");
        assertThatExceptionOfType(Refused.class)
                .isThrownBy(() -> LocalTimes.instantOf(typed, DENVER, null))
                .satisfies(refused -> {
                    assertThat(refused.code()).isEqualTo("time.twice");
                    assertThat(refused.arguments())
                            .containsExactly(typed, ZoneOffset.ofHours(-6), ZoneOffset.ofHours(-7), DENVER);
                });
        assertThat(LocalTimes.instantOf(typed, DENVER, Occurrence.EARLIER))
                .isEqualTo(Instant.parse("2026-11-01T07:15:00Z"));
        assertThat(LocalTimes.instantOf(typed, DENVER, Occurrence.LATER))
                .isEqualTo(Instant.parse("2026-11-01T08:15:00Z"));
    }

    @Test
    void theRepeatedHourBeginsAtOneAndEndsBeforeTwo() {
        assertThat(ambiguous("2026-10-25T00:59:59", LONDON)).isFalse();
        assertThat(ambiguous("2026-10-25T01:00", LONDON)).isTrue();
        assertThat(ambiguous("2026-10-25T01:59:59", LONDON)).isTrue();
        assertThat(ambiguous("2026-10-25T02:00", LONDON)).isFalse();
        assertThat(ambiguous("2026-11-01T00:59:59", DENVER)).isFalse();
        assertThat(ambiguous("2026-11-01T01:00", DENVER)).isTrue();
        assertThat(ambiguous("2026-11-01T02:00", DENVER)).isFalse();
    }

    @Test
    void inLondonHalfPastOneDoesNotOccurInMarch() {
        refused("2026-03-29T01:30", "2026-03-29T02:00", LONDON);
        refused("2026-03-29T01:00", "2026-03-29T02:00", LONDON);
        assertThat(LocalTimes.instantOf(LocalDateTime.parse("2026-03-29T02:00"), LONDON, null))
                .isEqualTo(Instant.parse("2026-03-29T01:00:00Z"));
    }

    @Test
    void inDenverHalfPastTwoDoesNotOccurInMarch() {
        refused("2026-03-08T02:30", "2026-03-08T03:00", DENVER);
        assertThat(LocalTimes.instantOf(LocalDateTime.parse("2026-03-08T01:59"), DENVER, null))
                .isEqualTo(Instant.parse("2026-03-08T08:59:00Z"));
        assertThat(LocalTimes.instantOf(LocalDateTime.parse("2026-03-08T03:00"), DENVER, null))
                .isEqualTo(Instant.parse("2026-03-08T09:00:00Z"));
    }

    static boolean ambiguous(String typed, ZoneId zone) {
        return LocalTimes.meaningOf(LocalDateTime.parse(typed), zone).isAmbiguous();
    }

    static void refused(String typed, String firstAfter, ZoneId zone) {
        assertThatExceptionOfType(Refused.class)
                .isThrownBy(() -> LocalTimes.instantOf(LocalDateTime.parse(typed), zone, Occurrence.EARLIER))
                .satisfies(refused -> {
                    assertThat(refused.code()).isEqualTo("time.notOccurring");
                    assertThat(refused.arguments())
                            .containsExactly(LocalDateTime.parse(typed), LocalDateTime.parse(firstAfter), zone);
                });
    }
}
