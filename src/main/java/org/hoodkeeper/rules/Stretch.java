package org.hoodkeeper.rules;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.SiteDecision;
import org.hoodkeeper.facts.Told;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/** The rules of a stretch of time within which nothing changes. */
final class Stretch implements InForce {

    private static final String NONE = "none";

    private final @Nullable RuleSet set;
    private final LocalDate day;
    private final Map<String, Told<SiteDecision>> made;
    private final Instant changesAt;
    private final YearReading yearReading;
    private final Map<Asked, Answered> demands = new ConcurrentHashMap<>();

    Stretch(@Nullable RuleSet set, LocalDate day, Map<String, Told<SiteDecision>> made, Instant changesAt) {
        this.set = set;
        this.day = day;
        this.made = made;
        this.changesAt = changesAt;
        Decided reading = decision("year.reading");
        this.yearReading = reading == null ? YearReading.CALENDAR_MONTHS : YearReading.of(reading.value());
    }

    private record Asked(RequirementKind kind, InterfaceType type, Circumstance circumstance) {}

    private record Answered(@Nullable Demand demand) {}

    @Override
    public @Nullable Demand demand(RequirementKind kind, InterfaceType type, Circumstance circumstance) {
        Asked asked = new Asked(kind, type, circumstance);
        Answered answered = demands.get(asked);
        if (answered == null) {
            answered = new Answered(find(asked));
            demands.put(asked, answered);
        }
        return answered.demand();
    }

    private @Nullable Demand find(Asked asked) {
        if (set == null) {
            return null;
        }
        List<Rule> rules = set.rules(asked.kind(), asked.type(), day);
        Rule rule = first(rules, asked.circumstance());
        if (rule == null && asked.circumstance() != Circumstance.ALWAYS) {
            rule = first(rules, Circumstance.ALWAYS);
        }
        return rule == null || rule.effect() == Effect.NOT_REQUIRED ? null : demand(rule, asked.type());
    }

    private static @Nullable Rule first(List<Rule> rules, Circumstance circumstance) {
        for (Rule rule : rules) {
            if (rule.when() == circumstance) {
                return rule;
            }
        }
        return null;
    }

    private @Nullable Demand demand(Rule rule, InterfaceType type) {
        Decided decided = rule.decision() == null ? null : decision(rule.decision(), type.name());
        if (rule.effect() == Effect.SITE_DECIDES && (decided == null || !decided.isYes())) {
            return null;
        }
        Term term = rule.term();
        if (term == null) {
            term = termOf(rule.requirement() == RequirementKind.MEDICAL ? decision("medical.interval") : decided);
        }
        return new Demand(
                rule.code(),
                term,
                rule.provenance(),
                rule.decision(),
                decided == null ? null : decided.record(),
                rule.decision() != null && decided == null);
    }

    private static @Nullable Term termOf(@Nullable Decided decided) {
        if (decided == null || decided.value().equals(NONE)) {
            return null;
        }
        try {
            return Term.of(decided.value());
        } catch (Refused noTerm) {
            return null;
        }
    }

    @Override
    public @Nullable Decided decision(String key, @Nullable String about) {
        Told<SiteDecision> told = about == null ? null : made.get(key + "/" + about);
        if (told == null) {
            told = made.get(key);
        }
        if (told != null) {
            return new Decided(key, told.fact().value(), Mark.VERIFIED, told.id());
        }
        SiteDecisionRule rule = set == null ? null : set.decision(key).orElse(null);
        return rule == null || rule.byDefault() == null || rule.mark() == null
                ? null
                : new Decided(key, rule.byDefault(), rule.mark(), null);
    }

    @Override
    public @Nullable Factor factor(ModelData model) {
        String deviceClass = set == null ? null : model.classes().get(set.code());
        if (set == null || deviceClass == null) {
            return null;
        }
        ProtectionFactor factor = set.factor(deviceClass, day)
                .filter(found -> found.interfaces().contains(model.type()))
                .orElse(null);
        return factor == null ? null : new Factor(factor.factor(), deviceClass, factor.provenance());
    }

    @Override
    public @Nullable FitTestRule fitTest(InterfaceType type) {
        return set == null ? null : set.fitTest(type, day).orElse(null);
    }

    @Override
    public YearReading yearReading() {
        return yearReading;
    }

    @Override
    public String ruleSet() {
        return set == null ? NONE : set.code() + " " + set.version();
    }

    @Override
    public Instant changesAt() {
        return changesAt;
    }
}
