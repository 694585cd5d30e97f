package org.hoodkeeper.oversight;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.hoodkeeper.database.SiteBinding;
import org.hoodkeeper.kernel.AccountId;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.kernel.Viewer;
import org.hoodkeeper.programme.RuleShelf;
import org.hoodkeeper.programme.SiteRegister;
import org.hoodkeeper.reporting.Moment;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.jdbc.core.JdbcTemplate;

/** A rule set that came to be known between a moment and today judges the moment too: that is no record, and must be said. */
@SpringBootTest
class DifferencesTest {

    private static final Instant TODAY = Instant.parse("2026-06-01T12:00:00Z");

    @Autowired
    Differences differences;

    @Autowired
    SiteRegister sites;

    @Autowired
    RuleShelf shelf;

    @Autowired
    JdbcTemplate jdbc;

    private void given(String code, String version, String at) throws Exception {
        String content = Files.readString(newestUk())
                .replaceFirst("(?m)^code: uk$", "code: " + code)
                .replaceFirst("(?m)^version: .*$", "version: " + version);
        jdbc.update(
                "insert into rule_set (code, version, hash, content, loaded_at) values (?, ?, ?, ?, ?)",
                code,
                version,
                code + version,
                content,
                OffsetDateTime.parse(at));
    }

    private static Path newestUk() throws Exception {
        try (var files = Files.list(Path.of("src/main/resources/rule-sets"))) {
            return files.filter(file -> file.getFileName().toString().startsWith("uk-"))
                    .findFirst()
                    .orElseThrow();
        }
    }

    @Test
    void aRuleSetGivenSinceIsNamed() throws Exception {
        given("differing", "2026-1", "2026-01-01T00:00:00Z");
        given("differing", "2026-2", "2026-03-01T10:00:00Z");
        given("foreign", "2026-1", "2026-01-01T00:00:00Z");
        given("foreign", "2026-2", "2026-03-01T10:00:00Z");
        shelf.afterPropertiesSet();
        SiteId site = sites.open("differing", "Differing", ZoneId.of("Europe/London"), "differing")
                .id();
        assertThat(rules(site, "2026-03-01T09:59:59Z"))
                .extracting(given -> given.code() + " " + given.version() + " " + given.at())
                .containsExactly("differing 2026-2 2026-03-01T10:00:00Z");
        assertThat(rules(site, "2026-03-01T10:00:00Z")).isEmpty();
        assertThat(rules(site, "2025-12-31T00:00:00Z"))
                .as("the first version counts as known all along")
                .hasSize(1);
    }

    private List<RuleShelf.Given> rules(SiteId site, String at) {
        Viewer officer = new Viewer(site, new AccountId(UUID.randomUUID()), Set.of(Role.OFFICER), null, null);
        Moment moment = new Moment(Instant.parse(at), TODAY, Moment.View.AS_KNOWN_NOW);
        Differences.All all = SiteBinding.in(site, () -> differences.ofThings(officer, moment, TODAY, List.of()));
        assertThat(all.isEmpty()).isEqualTo(all.rules().isEmpty());
        return all.rules();
    }
}
