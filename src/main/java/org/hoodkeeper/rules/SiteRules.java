package org.hoodkeeper.rules;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Days;
import org.jspecify.annotations.Nullable;

/**
 * A site's rule sets and decisions as known at one moment. Time falls into stretches within which nothing changes; each is
 * worked out once.
 */
public final class SiteRules implements RuleBook {

    /** The decision by which a site adopts a rule set; its value is the rule set's code. */
    public static final String ADOPTED = "rule-set";

    private final ZoneId zone;
    private final String firstRuleSet;
    private final Collection<RuleSet> ruleSets;
    private final List<Told<SiteDecision>> decisions;
    private final NavigableMap<Instant, Instant> stretches = new TreeMap<>();
    private final Map<Instant, InForce> worked = new ConcurrentHashMap<>();

    /**
     * @param firstRuleSet code of the rule set that counts until the site decides on another
     * @param ruleSets every version that had been loaded by the moment of knowledge
     * @param decisions the site's decisions as known then, nothing corrected or withdrawn; the scope is the key
     */
    public SiteRules(
            ZoneId zone, String firstRuleSet, Collection<RuleSet> ruleSets, Collection<Told<SiteDecision>> decisions) {
        this.zone = zone;
        this.firstRuleSet = firstRuleSet;
        this.ruleSets = List.copyOf(ruleSets);
        List<Told<SiteDecision>> newestFirst = new ArrayList<>(decisions);
        newestFirst.sort((one, other) -> {
            int order = other.from().compareTo(one.from());
            return order != 0 ? order : other.recordedAt().compareTo(one.recordedAt());
        });
        this.decisions = List.copyOf(newestFirst);
        TreeSet<Instant> changes = new TreeSet<>();
        this.decisions.forEach(told -> {
            changes.add(told.from());
            if (told.until() != null) {
                changes.add(told.until());
            }
        });
        this.ruleSets.forEach(set -> addChanges(set, changes));
        Instant before = Instant.MIN;
        for (Instant change : changes) {
            stretches.put(before, change);
            before = change;
        }
        stretches.put(before, Instant.MAX);
    }

    private void addChanges(RuleSet set, TreeSet<Instant> changes) {
        addChanges(set.inForce(), changes);
        set.rules().forEach(rule -> addChanges(rule.inForce(), changes));
        set.factors().forEach(factor -> addChanges(factor.inForce(), changes));
        set.dangerousAir().forEach(rule -> addChanges(rule.inForce(), changes));
        set.fitTests().forEach(rule -> addChanges(rule.inForce(), changes));
        set.limits().forEach(limit -> addChanges(limit.inForce(), changes));
    }

    private void addChanges(InForceDays days, TreeSet<Instant> changes) {
        changes.add(Days.startOf(days.firstDay(), zone));
        if (days.lastDay() != null) {
            changes.add(Days.endOf(days.lastDay(), zone));
        }
    }

    @Override
    public InForce at(Instant instant) {
        Map.Entry<Instant, Instant> stretch = stretches.floorEntry(instant);
        return worked.computeIfAbsent(stretch.getKey(), from -> work(instant, stretch.getValue()));
    }

    private InForce work(Instant instant, Instant changesAt) {
        LocalDate day = Days.of(instant, zone);
        Map<String, Told<SiteDecision>> made = new TreeMap<>();
        for (Told<SiteDecision> told : decisions) {
            if (told.scope() != null && told.isTrueAt(instant)) {
                made.putIfAbsent(told.scope(), told);
            }
        }
        return new Stretch(adopted(made.get(ADOPTED), day), day, made, changesAt);
    }

    /** The newest version of the adopted code that may judge the day. */
    private @Nullable RuleSet adopted(@Nullable Told<SiteDecision> decision, LocalDate day) {
        String code = decision == null ? firstRuleSet : decision.fact().value();
        RuleSet newest = null;
        for (RuleSet set : ruleSets) {
            if (set.code().equals(code) && set.inForce().on(day) && (newest == null || newer(set, newest))) {
                newest = set;
            }
        }
        return newest;
    }

    private static boolean newer(RuleSet one, RuleSet other) {
        int order = one.inForce().firstDay().compareTo(other.inForce().firstDay());
        return order != 0 ? order > 0 : one.version().compareTo(other.version()) > 0;
    }
}
