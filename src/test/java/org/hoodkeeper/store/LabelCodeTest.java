package org.hoodkeeper.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LabelCodeTest {

    /** ISO 7064 MOD 37,36 as the Global Release Identifier uses it: A1-2425G-ABC1234002 has the check character M. */
    @Test
    void theCheckCharacterIsTheOneOfThePublishedExample() {
        assertThat(LabelCode.check("A1-2425G-ABC1234002")).isEqualTo('M');
    }

    @Test
    void whatIsPrintedIsReadBack() {
        String code = LabelCode.print("ferrow", "S-098");
        assertThat(code).startsWith("ferrow/S-098/").hasSize(14);
        assertThat(LabelCode.read(code)).isEqualTo(new LabelCode("ferrow", "S-098"));
        assertThat(LabelCode.read(" " + code + "\n").label()).isEqualTo("S-098");
    }

    @Test
    void aBareLabelIsOfAnySite() {
        assertThat(LabelCode.read("S-098").isOf("ferrow")).isTrue();
        assertThat(LabelCode.read(LabelCode.print("pine", "S-098")).isOf("ferrow"))
                .isFalse();
        assertThat(LabelCode.read(LabelCode.print("FERROW", "S-098")).isOf("ferrow"))
                .isTrue();
    }

    /** Each single wrong sign and each swap of neighbours is found. */
    @Test
    void aSignMisreadIsFound() {
        String code = LabelCode.print("ferrow", "S-198");
        String check = code.substring(code.length() - 1);
        for (String wrong : new String[] {"S-199", "S-189", "S-918", "T-198", "S-098"}) {
            assertThatThrownBy(() -> LabelCode.read("ferrow/" + wrong + "/" + check))
                    .as(wrong)
                    .isInstanceOf(Refused.class);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"ferrow/S-098", "ferrow//K", "/S-098/K", "ferrow/S-098/KK", "a/b/c/d", "///"})
    void whatIsNoLabelIsRefused(String text) {
        assertThatThrownBy(() -> LabelCode.read(text))
                .isInstanceOf(Refused.class)
                .hasMessageContaining("label.misread");
    }
}
