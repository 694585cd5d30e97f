package org.hoodkeeper.programme;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.time.OffsetDateTime;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.core.io.ClassPathResource;
import org.springframework.jdbc.core.JdbcTemplate;

/** A database that has been given an older version of a rule set keeps it, and is given the newer beside it. */
@SpringBootTest
class RuleShelfTest {

    @Autowired
    RuleShelf shelf;

    @Autowired
    JdbcTemplate jdbc;

    private static String newest() throws Exception {
        return new ClassPathResource("rule-sets/uk-2026-5.yaml")
                .getContentAsString(StandardCharsets.UTF_8)
                .replaceFirst("(?m)^code: uk$", "code: shelved");
    }

    private void given(String version, String content, String at) {
        jdbc.update(
                "insert into rule_set (code, version, hash, content, loaded_at) values (?, ?, ?, ?, ?)",
                "shelved",
                version,
                "shelved" + version,
                content.replaceFirst("(?m)^version: .*$", "version: " + version),
                OffsetDateTime.parse(at));
    }

    /** The older version took any number for the load of a battery, the newer a part of a whole alone. */
    @Test
    void aDecisionHasTheFormThatTheNewestVersionAsksFor() throws Exception {
        given(
                "2026-1",
                newest().replace("key: battery.load, form: SHARE", "key: battery.load, form: NUMBER"),
                "2026-01-01T00:00:00Z");
        given("2026-2", newest(), "2026-03-01T00:00:00Z");
        shelf.afterPropertiesSet();
        assertThatThrownBy(() -> shelf.check("battery.load", "80"))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo("rules.decision.value.SHARE"));
        assertThatCode(() -> shelf.check("battery.load", "0.8")).doesNotThrowAnyException();
    }
}
