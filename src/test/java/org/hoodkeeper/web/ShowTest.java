package org.hoodkeeper.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.kernel.Role;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.support.StaticListableBeanFactory;
import org.springframework.context.MessageSource;
import org.springframework.context.i18n.LocaleContextHolder;

class ShowTest {

    static final ZoneId LONDON = ZoneId.of("Europe/London");

    final MessageSource messages = new MessageFiles().messageSource();
    final Show show = new Show(messages, new Here(new StaticListableBeanFactory().getBeanProvider(Caller.class)));
    final Words words = new Words(messages, show);

    @BeforeEach
    void english() {
        LocaleContextHolder.setLocale(Locale.ENGLISH);
    }

    @AfterEach
    void none() {
        LocaleContextHolder.resetLocaleContext();
    }

    static void spanish() {
        LocaleContextHolder.setLocale(Locale.forLanguageTag("es"));
    }

    @Test
    void daysAreWrittenOut() {
        assertThat(show.day(LocalDate.of(2026, 11, 30))).isEqualTo("30 Nov 2026");
        assertThat(show.day(LocalDate.of(2026, 3, 1))).isEqualTo("1 Mar 2026");
        spanish();
        assertThat(show.day(LocalDate.of(2026, 9, 30))).isEqualTo("30 sept 2026");
    }

    @Test
    void everyMonthHasItsName() {
        assertThat(IntStream.rangeClosed(1, 12).mapToObj(month -> show.day(LocalDate.of(2026, month, 1))))
                .containsExactly(
                        "1 Jan 2026",
                        "1 Feb 2026",
                        "1 Mar 2026",
                        "1 Apr 2026",
                        "1 May 2026",
                        "1 Jun 2026",
                        "1 Jul 2026",
                        "1 Aug 2026",
                        "1 Sep 2026",
                        "1 Oct 2026",
                        "1 Nov 2026",
                        "1 Dec 2026");
        spanish();
        assertThat(IntStream.rangeClosed(1, 12).mapToObj(month -> show.day(LocalDate.of(2026, month, 1))))
                .containsExactly(
                        "1 ene 2026",
                        "1 feb 2026",
                        "1 mar 2026",
                        "1 abr 2026",
                        "1 may 2026",
                        "1 jun 2026",
                        "1 jul 2026",
                        "1 ago 2026",
                        "1 sept 2026",
                        "1 oct 2026",
                        "1 nov 2026",
                        "1 dic 2026");
    }

    @Test
    void timesAreOnTheSitesClock() {
        assertThat(show.time(LocalTime.of(6, 0, 59))).isEqualTo("06:00");
        assertThat(show.instant(Instant.parse("2026-07-01T05:00:00Z"), LONDON)).isEqualTo("1 Jul 2026, 06:00");
        assertThat(show.dayTime(LocalDateTime.parse("2026-07-01T18:05"))).isEqualTo("1 Jul 2026, 18:05");
    }

    @Test
    void aTimeThatOccursTwiceCarriesItsOffset() {
        assertThat(show.instant(Instant.parse("2026-10-25T00:30:00Z"), LONDON))
                .isEqualTo("25 Oct 2026, 01:30 (UTC+01:00)");
        assertThat(show.instant(Instant.parse("2026-10-25T01:30:00Z"), LONDON)).isEqualTo("25 Oct 2026, 01:30 (UTC)");
        assertThat(show.offset(ZoneOffset.ofHours(-7))).isEqualTo("UTC\u221207:00");
    }

    @Test
    void theEndOfADayIsNamedByThatDay() {
        assertThat(show.until(Instant.parse("2026-12-01T00:00:00Z"), LONDON)).isEqualTo("until the end of 30 Nov 2026");
        assertThat(show.until(Instant.parse("2026-06-30T23:00:00Z"), LONDON)).isEqualTo("until the end of 30 Jun 2026");
        assertThat(show.until(Instant.parse("2026-07-01T00:00:00Z"), LONDON)).isEqualTo("until 1 Jul 2026, 01:00");
        spanish();
        assertThat(show.until(Instant.parse("2026-12-01T00:00:00Z"), LONDON))
                .isEqualTo("hasta el final del 30 nov 2026");
        assertThat(show.until(Instant.parse("2026-07-01T13:00:00Z"), LONDON)).isEqualTo("hasta el 1 jul 2026, 14:00");
    }

    @Test
    void anIntervalNamesBothEnds() {
        assertThat(show.interval(Instant.parse("2026-12-01T06:00:00Z"), Instant.parse("2026-12-01T14:00:00Z"), LONDON))
                .isEqualTo("1 Dec 2026, 06:00 until 1 Dec 2026, 14:00");
    }

    @Test
    void spansAreWordsOfAtMostTwoParts() {
        assertThat(show.span(Duration.ofSeconds(80))).isEqualTo("1\u202fmin 20\u202fs");
        assertThat(show.span(Duration.ofMinutes(120))).isEqualTo("2\u202fh");
        assertThat(show.span(Duration.ofMinutes(80).plusSeconds(9))).isEqualTo("1\u202fh 20\u202fmin");
        assertThat(show.span(Duration.ofDays(1))).isEqualTo("1 day");
        assertThat(show.span(Duration.ofDays(3).plusHours(5).plusMinutes(7))).isEqualTo("3 days 5\u202fh");
        assertThat(show.span(Duration.ofMinutes(-80))).isEqualTo("1\u202fh 20\u202fmin");
        assertThat(show.span(Duration.ZERO)).isEqualTo("0\u202fs");
        spanish();
        assertThat(show.span(Duration.ofDays(3))).isEqualTo("3 días");
    }

    @Test
    void figuresKeepTheirPrecisionAndTheirUnit() {
        assertThat(show.figure(new BigDecimal("175.0"), "L/min")).isEqualTo("175.0\u202fL/min");
        assertThat(show.figure(new BigDecimal("0.1"), "mg/m3")).isEqualTo("0.1\u202fmg/m³");
        assertThat(show.figure(new BigDecimal("0.1"), "f/cm3")).isEqualTo("0.1\u202ff/cm³");
        assertThat(show.unit("ppm3")).isEqualTo("ppm3");
        assertThat(show.figure(new BigDecimal("-0.5"))).isEqualTo("\u22120.5");
        assertThat(show.count(1250)).isEqualTo("1250");
        assertThat(show.count(12500)).isEqualTo("12\u202f500");
        assertThat(show.count(5_000_000)).isEqualTo("5\u202f000\u202f000");
        spanish();
        assertThat(show.figure(new BigDecimal("12500.25"))).isEqualTo("12\u202f500,25");
    }

    @Test
    void aRefusalIsASentence() {
        assertThat(words.refusal(new Refused("validity.order", LocalDate.of(2026, 11, 30), LocalDate.of(2026, 11, 1))))
                .isEqualTo("The last day must not lie before the first: 1 Nov 2026 is before 30 Nov 2026. "
                        + "Change one of the two days.");
    }

    @Test
    void aRefusalWithoutWordsIsStillARefusal() {
        assertThat(words.refusal(new Refused("nobody.wrote.this"))).contains("“nobody.wrote.this”");
    }

    @Test
    void argumentsAreWordsToo() {
        assertThat(words.say("show.until", Role.OFFICER)).isEqualTo("until safety officer");
        assertThat(words.say("show.until", List.of(Role.OFFICER, new BigDecimal("0.50"))))
                .isEqualTo("until safety officer, 0.50");
        assertThat(words.say("show.until", 120_000)).isEqualTo("until 120\u202f000");
        assertThat(words.say("show.until", Duration.ofHours(2))).isEqualTo("until 2\u202fh");
        assertThat(words.say("show.until", new Object[] {null})).isEqualTo("until nothing on record");
    }
}
