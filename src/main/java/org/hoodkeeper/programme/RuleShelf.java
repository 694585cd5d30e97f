package org.hoodkeeper.programme;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.sql.Timestamp;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.rules.RuleSet;
import org.hoodkeeper.rules.RuleSetFile;
import org.hoodkeeper.rules.SiteDecisionRule;
import org.hoodkeeper.rules.SiteRules;
import org.springframework.beans.factory.InitializingBean;
import org.springframework.core.io.Resource;
import org.springframework.core.io.support.PathMatchingResourcePatternResolver;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;

/**
 * Every version of every rule set that this service was ever given. Files are loaded at the start; another content under a
 * version that is known already stops the start, for answers rest on it.
 */
@Component
public class RuleShelf implements InitializingBean {

    private final JdbcTemplate jdbc;
    private final Clock clock;
    private volatile List<Loaded> loaded = List.of();

    RuleShelf(JdbcTemplate jdbc, Clock clock) {
        this.jdbc = jdbc;
        this.clock = clock;
    }

    private record Loaded(RuleSet set, Instant at) {}

    @Override
    public void afterPropertiesSet() throws IOException {
        for (Resource file : new PathMatchingResourcePatternResolver().getResources("classpath:rule-sets/*.yaml")) {
            store(file.getContentAsString(StandardCharsets.UTF_8));
        }
        loaded = jdbc.query(
                "select content, loaded_at from rule_set order by loaded_at, code, version",
                (row, n) ->
                        new Loaded(parse(row.getString(1)), row.getTimestamp(2).toInstant()));
    }

    private void store(String content) {
        RuleSet set = parse(content);
        List<String> known = jdbc.queryForList(
                "select hash from rule_set where code = ? and version = ?", String.class, set.code(), set.version());
        if (known.isEmpty()) {
            jdbc.update(
                    "insert into rule_set (code, version, hash, content, loaded_at) values (?, ?, ?, ?, ?)"
                            + " on conflict do nothing",
                    set.code(),
                    set.version(),
                    set.hash(),
                    content,
                    Timestamp.from(clock.instant()));
        } else if (!known.get(0).equals(set.hash())) {
            throw new IllegalStateException("The rule set " + set.code() + " " + set.version()
                    + " is known with another content. Answers rest on it: give the changed file a new version.");
        }
    }

    private static RuleSet parse(String content) {
        try {
            return RuleSetFile.parse(new ByteArrayInputStream(content.getBytes(StandardCharsets.UTF_8)));
        } catch (IOException never) {
            throw new UncheckedIOException(never);
        }
    }

    /**
     * What was known at a moment. The first version of a rule set counts as known all along: the law stood before the service
     * did. A later version counts from when it was loaded.
     */
    public List<RuleSet> knownAt(Instant moment) {
        List<RuleSet> known = new ArrayList<>();
        Set<String> seen = new HashSet<>();
        for (Loaded one : loaded) {
            if (seen.add(one.set().code()) || !one.at().isAfter(moment)) {
                known.add(one.set());
            }
        }
        return known;
    }

    /** @param at when this service was given it */
    public record Given(String code, String version, Instant at) {}

    /** Versions that came to be known later than one moment until another, the first of a rule set left out: see {@link #knownAt}. */
    public List<Given> givenBetween(Instant after, Instant until) {
        List<Given> given = new ArrayList<>();
        Set<String> seen = new HashSet<>();
        for (Loaded one : loaded) {
            boolean first = seen.add(one.set().code());
            if (!first && one.at().isAfter(after) && !one.at().isAfter(until)) {
                given.add(new Given(one.set().code(), one.set().version(), one.at()));
            }
        }
        return given;
    }

    /** @throws Refused when the key is not known, or the value does not have its form, in the newest version of any rule set */
    public void check(String key, String value) {
        String plain = key.indexOf('/') < 0 ? key : key.substring(0, key.indexOf('/'));
        if (plain.equals(SiteRules.ADOPTED)) {
            if (loaded.stream().noneMatch(one -> one.set().code().equals(value))) {
                throw new Refused("decision.ruleSet.unknown", value);
            }
            return;
        }
        Refused refused = new Refused("decision.key.unknown", key);
        for (Loaded one : newest()) {
            SiteDecisionRule rule = one.set().decision(plain).orElse(null);
            if (rule == null) {
                continue;
            }
            try {
                rule.check(key, value);
                return;
            } catch (Refused wrongForm) {
                refused = wrongForm;
            }
        }
        throw refused;
    }

    /** Of each rule set: what an older version took, a newer one may refuse. */
    private Collection<Loaded> newest() {
        Map<String, Loaded> newest = new LinkedHashMap<>();
        loaded.forEach(one -> newest.put(one.set().code(), one));
        return newest.values();
    }
}
