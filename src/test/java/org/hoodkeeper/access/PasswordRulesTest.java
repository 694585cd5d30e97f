package org.hoodkeeper.access;

import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PasswordRulesTest {

    private final PasswordRules rules = new PasswordRules();

    @ParameterizedTest
    @CsvSource({
        "elevensigns, password.short",
        "password1234, password.common",
        "P@ssw0rd2026!, password.common",
        "passwordpassword, password.common",
        "hoodkeeper2026, password.common",
        "Welcome to Ferrow 1, password.common",
        "qwertyuiop12, password.common",
        "123456789012, password.common",
        "aaaaaaaaaaaaaa, password.common",
        "abababababab, password.common",
        "1qaz2wsx3edc, password.common",
        "summer-winter-2026, password.common",
        "maren.oduya 1974, password.own",
        "Oduya-Oduya-Maren, password.own"
    })
    void whatIsGuessedFirstIsRefused(String password, String code) {
        assertThatThrownBy(() -> rules.check(password, "maren.oduya", "Maren Oduya"))
                .isInstanceOfSatisfying(
                        Refused.class,
                        refused -> org.assertj.core.api.Assertions.assertThat(refused.code())
                                .isEqualTo(code));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "three quiet herons",
                "correct staple gherkin",
                "k7#mQz!9wLp2",
                "piedra lunar canoa",
                "zzyzx-ovid-plum"
            })
    void threeWordsOrRandomSignsAreEnough(String password) {
        assertThatCode(() -> rules.check(password, "maren.oduya", "Maren Oduya"))
                .doesNotThrowAnyException();
    }

    /** OWASP ASVS 5.0.0, 6.2.9: at least 64 signs. */
    @Test
    void longOnesAreTakenUpTo256Signs() {
        assertThatCode(() -> rules.check("heron plum ".repeat(23), "x1", "X")).doesNotThrowAnyException();
        assertThatThrownBy(() -> rules.check("heron plum k".repeat(22), "x1", "X"))
                .isInstanceOf(Refused.class)
                .hasMessageContaining("password.long");
    }

    @Test
    void signsAreCountedNotCharacters() {
        assertThatThrownBy(() -> rules.check("🪨🌊🌲🔥🌙⛰🪨🌊🌲🔥🌙", "x1", "X"))
                .isInstanceOf(Refused.class)
                .hasMessageContaining("password.short");
    }
}
