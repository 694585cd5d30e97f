package org.hoodkeeper.rules;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Kind;

/**
 * The duties of one jurisdiction as one version of a file tells them. The file never changes under its version; another content
 * is another version.
 *
 * @param code for instance {@code uk}; models name their class under it
 * @param version for instance {@code 2026-1}
 * @param jurisdiction for people
 * @param inForce the days that may be judged with it
 * @param dangerousAir the classes that may be worn in an immediately dangerous air; empty means none may
 * @param notes what is known but is no rule: proposals, doubts
 * @param hash SHA-256 of the file, lower-case hexadecimal, line ends counted as one line feed
 */
public record RuleSet(
        String code,
        String version,
        String jurisdiction,
        InForceDays inForce,
        List<Rule> rules,
        List<ProtectionFactor> factors,
        List<DangerousAirRule> dangerousAir,
        List<FitTestRule> fitTests,
        List<PublishedLimit> limits,
        List<RetentionRule> retention,
        List<SiteDecisionRule> decisions,
        List<Provenance> notes,
        String hash) {

    public RuleSet {
        rules = List.copyOf(rules);
        factors = List.copyOf(factors);
        dangerousAir = List.copyOf(dangerousAir);
        fitTests = List.copyOf(fitTests);
        limits = List.copyOf(limits);
        retention = List.copyOf(retention);
        decisions = List.copyOf(decisions);
        notes = List.copyOf(notes);
    }

    /** Every rule of a requirement that speaks for an interface type on a day, whatever the circumstance; in file order. */
    public List<Rule> rules(RequirementKind requirement, InterfaceType type, LocalDate day) {
        return rules.stream()
                .filter(rule -> rule.requirement() == requirement && rule.speaksFor(type, day))
                .toList();
    }

    /** The factor of a device class on a day; none where the class is not known, which is unknown and never 1. */
    public Optional<ProtectionFactor> factor(String deviceClass, LocalDate day) {
        return factors.stream()
                .filter(factor -> factor.deviceClass().equals(deviceClass))
                .filter(factor -> factor.inForce().on(day))
                .findFirst();
    }

    /** Why a device class may be worn in an immediately dangerous air on a day; none where it may not. */
    public Optional<DangerousAirRule> dangerousAir(String deviceClass, LocalDate day) {
        return dangerousAir.stream()
                .filter(rule ->
                        rule.deviceClass().equals(deviceClass) && rule.inForce().on(day))
                .findFirst();
    }

    /** When a fit test of that interface type is passed; none where no fit test belongs to it. */
    public Optional<FitTestRule> fitTest(InterfaceType type, LocalDate day) {
        return fitTests.stream()
                .filter(rule ->
                        rule.interfaces().contains(type) && rule.inForce().on(day))
                .findFirst();
    }

    /** The limits of a quantity on a day, whatever the interface type. */
    public List<PublishedLimit> limits(PublishedLimit.Quantity quantity, LocalDate day) {
        return limits.stream()
                .filter(limit -> limit.quantity() == quantity && limit.inForce().on(day))
                .toList();
    }

    public List<RetentionRule> retention(Kind kind) {
        return retention.stream().filter(rule -> rule.kinds().contains(kind)).toList();
    }

    /** @param key with or without the thing for which it is taken: {@code wear.longest/HALF_MASK} finds {@code wear.longest} */
    public Optional<SiteDecisionRule> decision(String key) {
        String plain = key.contains("/") ? key.substring(0, key.indexOf('/')) : key;
        return decisions.stream().filter(rule -> rule.key().equals(plain)).findFirst();
    }
}
