package org.hoodkeeper.web.hygienist;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.Objects;
import java.util.Properties;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What the page of a stint says of substances with a cartridge rule of their own, against the published rules: butadiene 29 CFR
 * 1910.1051(h)(3)(i) Table 1, from memory; formaldehyde 1910.1048(g), read in a state's equivalent; benzene 1910.1028,
 * acrylonitrile 1910.1045, vinyl chloride 1910.1017 and methylene chloride 1910.1052 as a university's schedule restates them.
 */
class SubstanceRuleWordsTest {

    private static String words(String file) throws IOException {
        Properties words = new Properties();
        try (InputStream stream = Objects.requireNonNull(
                SubstanceRuleWordsTest.class.getResourceAsStream("/messages/" + file + ".properties"))) {
            words.load(new InputStreamReader(stream, StandardCharsets.UTF_8));
        }
        return words.getProperty("plan.substances");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "butadiene 4 h to 5 ppm, 3 h to 10, 2 h to 25, 1 h to 50 (from memory)",
                "formaldehyde cartridges 3 h or the end of the shift, canisters 4 h to 7.5 ppm, industrial size 2 h to 75 ppm (verified",
                "benzene, acrylonitrile and vinyl chloride the end of the shift at the latest (restated)",
                "methylene chloride no filter but for escape (restated)"
            })
    void eachRuleStandsWithItsHoursAndItsMark(String rule) throws IOException {
        assertThat(words("exposure")).contains(rule);
    }

    /** The figures are the same in every language. */
    @ParameterizedTest
    @ValueSource(strings = {"exposure", "exposure_es"})
    void noFigureIsLostInTranslation(String file) throws IOException {
        assertThat(words(file)
                        .replaceAll("[^0-9.,]+", " ")
                        .replaceAll("[.,](?![0-9])", " ")
                        .replaceAll(" +", " ")
                        .replace(',', '.')
                        .strip())
                .isEqualTo("4 5 3 10 2 25 1 50 3 4 7.5 2 75");
    }
}
