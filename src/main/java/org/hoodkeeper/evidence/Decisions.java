package org.hoodkeeper.evidence;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.programme.RuleShelf;
import org.hoodkeeper.rules.RuleSet;
import org.hoodkeeper.rules.SiteDecisionRule;
import org.hoodkeeper.rules.SiteRules;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What the rules in force leave to a site, and what it decided there. Deciding goes through the programme. */
@Service
@Transactional(readOnly = true)
public class Decisions {

    private final Known known;
    private final RuleShelf shelf;

    Decisions(Known known, RuleShelf shelf) {
        this.known = known;
        this.shelf = shelf;
    }

    /**
     * One thing that is left to the site.
     *
     * @param taken the decisions in force, owner and reason left out; more than one where it is taken for each of several things
     */
    public record Point(SiteDecisionRule rule, List<Told<SiteDecision>> taken) {

        public Point {
            taken = List.copyOf(taken);
        }
    }

    /** @param ruleSet the adopted rule set with its version, {@code none} where none may judge that day */
    public record Points(String ruleSet, List<String> ruleSets, List<Point> points) {}

    /** In the order of the rule set; as known now. */
    public Points of(SiteId site, Instant at) {
        Map<String, Told<SiteDecision>> inForce = inForce(site, at);
        String adopted = known.rules(site).at(at).ruleSet();
        List<Point> points = new ArrayList<>();
        for (RuleSet set : shelf.knownAt(at)) {
            if (adopted.equals(set.code() + " " + set.version())) {
                set.decisions().forEach(rule -> points.add(new Point(rule, taken(rule, inForce))));
            }
        }
        List<String> codes = shelf.knownAt(at).stream()
                .map(RuleSet::code)
                .distinct()
                .sorted()
                .toList();
        return new Points(adopted, codes, points);
    }

    private Map<String, Told<SiteDecision>> inForce(SiteId site, Instant at) {
        Map<String, Told<SiteDecision>> inForce = new LinkedHashMap<>();
        for (Told<SiteDecision> told : known.newest(site, SiteDecision.class, Kind.SITE_DECISION, site)) {
            if (told.scope() != null && !told.scope().equals(SiteRules.ADOPTED) && told.isTrueAt(at)) {
                inForce.putIfAbsent(told.scope(), told);
            }
        }
        return inForce;
    }

    private static List<Told<SiteDecision>> taken(SiteDecisionRule rule, Map<String, Told<SiteDecision>> inForce) {
        return inForce.entrySet().stream()
                .filter(one -> one.getKey().equals(rule.key()) || one.getKey().startsWith(rule.key() + "/"))
                .map(Map.Entry::getValue)
                .toList();
    }
}
