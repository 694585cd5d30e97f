package org.hoodkeeper.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.math.BigDecimal;
import java.text.ParseException;
import java.util.Locale;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class DecimalTextTest {

    final DecimalText text = new DecimalText();

    static Stream<Locale> locales() {
        return Stream.of("en", "en-GB", "es", "es-MX", "de", "fr", "pl", "ar", "sv")
                .map(Locale::forLanguageTag);
    }

    @ParameterizedTest
    @MethodSource("locales")
    void commaAndPointMeanTheSameInEveryLanguage(Locale locale) throws ParseException {
        assertThat(text.parse("175.5", locale)).isEqualTo(new BigDecimal("175.5"));
        assertThat(text.parse("175,5", locale)).isEqualTo(new BigDecimal("175.5"));
        assertThat(text.parse(" 0,125 ", locale)).isEqualTo(new BigDecimal("0.125"));
        assertThat(text.parse("0.125", locale)).isEqualTo(new BigDecimal("0.125"));
        assertThat(text.parse(",5", locale)).isEqualTo(new BigDecimal("0.5"));
        assertThat(text.parse("-12", locale)).isEqualTo(new BigDecimal("-12"));
        assertThat(text.parse("\u221212", locale)).isEqualTo(new BigDecimal("-12"));
        assertThat(text.parse("120 000", locale)).isEqualTo(new BigDecimal("120000"));
        assertThat(text.parse("1\u202f250,5", locale)).isEqualTo(new BigDecimal("1250.5"));
        assertThat(text.parse("\u0661\u0667\u0665", locale)).isEqualTo(new BigDecimal("175"));
    }

    /** Whatever is shown in a field can be sent back from it. Seed written out, so that a failure can be run again. */
    @ParameterizedTest
    @MethodSource("locales")
    void whatIsPrintedIsReadBack(Locale locale) throws ParseException {
        Random random = new Random(20261130);
        for (int i = 0; i < 2000; i++) {
            BigDecimal number = BigDecimal.valueOf(random.nextInt(-2_000_000, 2_000_000), random.nextInt(0, 6));
            assertThat(text.parse(text.print(number, locale), locale)).isEqualTo(number);
        }
    }

    @Test
    void printsTheMarkOfTheLanguageAndKeepsTrailingZeros() {
        assertThat(text.print(new BigDecimal("175.50"), Locale.ENGLISH)).isEqualTo("175.50");
        assertThat(text.print(new BigDecimal("175.50"), Locale.forLanguageTag("es")))
                .isEqualTo("175,50");
        assertThat(text.print(new BigDecimal("1E+3"), Locale.ENGLISH)).isEqualTo("1000");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {"en;1,250", "es;1.250", "de;1.250", "en;12,500", "es;-1.250"})
    void whatMayBeThousandsIsRefused(String language, String typed) {
        assertThatExceptionOfType(ParseException.class)
                .isThrownBy(() -> text.parse(typed, Locale.forLanguageTag(language)));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {"en;1.250;1.250", "es;1,250;1.250", "en;1250,125;1250.125", "es;0.250;0.250"})
    void whatCannotBeThousandsIsRead(String language, String typed, String meant) throws ParseException {
        assertThat(text.parse(typed, Locale.forLanguageTag(language))).isEqualTo(new BigDecimal(meant));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "a",
                "",
                ".",
                "1,2,3",
                "1.2.3",
                "1,250.5",
                "1.250,5",
                "1e9",
                "1E-2147483648",
                "0x10",
                "NaN",
                "175 L/min",
                "1 2",
                "12 34",
                "--1",
                "1-",
                "99999999999999999999999999999999999999999"
            })
    void whatIsNoNumberIsRefused(String typed) {
        assertThatExceptionOfType(ParseException.class).isThrownBy(() -> text.parse(typed, Locale.ENGLISH));
    }

    @Test
    void aWholeNumberIsNeverCut() throws ParseException {
        WholeText whole = new WholeText();
        assertThat(whole.parse("12", Locale.ENGLISH)).isEqualTo(12);
        assertThat(whole.parse("12,0", Locale.ENGLISH)).isEqualTo(12);
        assertThat(whole.parse("120 000", Locale.ENGLISH)).isEqualTo(120_000);
        for (String typed : new String[] {"12.5", "3000000000", "x"}) {
            assertThatExceptionOfType(ParseException.class).isThrownBy(() -> whole.parse(typed, Locale.ENGLISH));
        }
    }
}
