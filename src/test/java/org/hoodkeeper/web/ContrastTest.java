package org.hoodkeeper.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Contrast of each pair of colours, light and dark. Source of the formula and of 4.5 : 1 and 3 : 1: WCAG 2.2, 1.4.3 and 1.4.11. */
class ContrastTest {

    static final Pattern COLOUR = Pattern.compile("--([a-z-]+): #([0-9a-f]{6});");

    final String css = read();
    final Map<String, String> light = colours(css.substring(css.indexOf(":root"), css.indexOf("@media")));
    final Map<String, String> dark = colours(
            css.substring(css.indexOf("@media (prefers-color-scheme: dark)"), css.indexOf("@media (prefers-contrast")));

    @ParameterizedTest
    @CsvSource({
        "ink,paper",
        "ink,sheet",
        "ink,accent-wash",
        "quiet,paper",
        "quiet,sheet",
        "quiet,accent-wash",
        "accent,paper",
        "accent,sheet",
        "accent,accent-wash",
        "on-accent,accent",
        "mistake,paper",
        "mistake,sheet",
        "on-clear,clear",
        "on-half,half",
        "on-barred,barred",
        "ink-clear,paper",
        "ink-clear,sheet",
        "ink-clear,accent-wash",
        "ink-half,paper",
        "ink-half,sheet",
        "ink-half,accent-wash",
        "ink-barred,paper",
        "ink-barred,sheet",
        "ink-barred,accent-wash"
    })
    void wordsCanBeRead(String ink, String ground) {
        assertThat(contrast(light, ink, ground)).isGreaterThanOrEqualTo(4.5);
        assertThat(contrast(dark, ink, ground)).isGreaterThanOrEqualTo(4.5);
    }

    @ParameterizedTest
    @CsvSource({"edge,paper", "edge,sheet", "mistake,sheet", "accent,paper"})
    void edgesOfControlsCanBeSeen(String edge, String ground) {
        assertThat(contrast(light, edge, ground)).isGreaterThanOrEqualTo(3);
        assertThat(contrast(dark, edge, ground)).isGreaterThanOrEqualTo(3);
    }

    /** Without hue the three verdicts still stand in order of lightness, each well apart from the next. */
    @Test
    void verdictsDifferInLightness() {
        assertThat(contrast(light, "clear", "half")).isGreaterThan(1.25);
        assertThat(contrast(light, "half", "barred")).isGreaterThan(3);
        assertThat(contrast(dark, "barred", "half")).isGreaterThan(2.5);
        assertThat(contrast(dark, "half", "clear")).isGreaterThan(1.5);
    }

    @Test
    void blackOnWhiteIsTwentyOne() {
        assertThat(contrast(Map.of("a", "000000", "b", "ffffff"), "a", "b")).isEqualTo(21.0);
    }

    static double contrast(Map<String, String> colours, String one, String other) {
        double a = luminance(colours.get(one));
        double b = luminance(colours.get(other));
        return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    }

    static double luminance(String hex) {
        return 0.2126 * channel(hex, 0) + 0.7152 * channel(hex, 2) + 0.0722 * channel(hex, 4);
    }

    static double channel(String hex, int at) {
        double value = Integer.parseInt(hex.substring(at, at + 2), 16) / 255.0;
        return value <= 0.04045 ? value / 12.92 : Math.pow((value + 0.055) / 1.055, 2.4);
    }

    static Map<String, String> colours(String block) {
        Map<String, String> found = new HashMap<>();
        Matcher colour = COLOUR.matcher(block);
        while (colour.find()) {
            found.put(colour.group(1), colour.group(2));
        }
        return found;
    }

    static String read() {
        try {
            return Files.readString(Path.of("src/main/resources/static/css/hoodkeeper.css"));
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }
}
