package org.hoodkeeper.rules;

import java.time.Instant;
import java.time.LocalDate;
import java.util.EnumMap;
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
    private final Demands demands = new Demands();
    private final Map<Named, Found> decisions = new ConcurrentHashMap<>();
    private final Map<InterfaceType, FitTestRule> fitTests = new EnumMap<>(InterfaceType.class);
    private final Map<PublishedLimit.Quantity, List<PublishedLimit>> limits =
            new EnumMap<>(PublishedLimit.Quantity.class);
    private final String ruleSet;
    private final Map<Classed, Factored> factors = new ConcurrentHashMap<>();

    Stretch(@Nullable RuleSet set, LocalDate day, Map<String, Told<SiteDecision>> made, Instant changesAt) {
        this.set = set;
        this.day = day;
        this.made = made;
        this.changesAt = changesAt;
        this.ruleSet = set == null ? NONE : set.code() + " " + set.version();
        if (set != null) {
            for (InterfaceType type : InterfaceType.values()) {
                set.fitTest(type, day).ifPresent(rule -> fitTests.put(type, rule));
            }
            for (PublishedLimit.Quantity quantity : PublishedLimit.Quantity.values()) {
                limits.put(quantity, set.limits(quantity, day));
            }
        }
        Decided reading = decision("year.reading");
        this.yearReading = reading == null ? YearReading.CALENDAR_MONTHS : YearReading.of(reading.value());
    }

    private record Asked(RequirementKind kind, InterfaceType type, Circumstance circumstance) {}

    private record Answered(@Nullable Demand demand) {}

    /** Asked some thirty times for each question: by place, without a key to hash. Two threads may work out the same. */
    private static final class Demands {

        private static final int TYPES = InterfaceType.values().length;
        private static final int CIRCUMSTANCES = Circumstance.values().length;

        private final @Nullable Answered[] answered =
                new @Nullable Answered[RequirementKind.values().length * TYPES * CIRCUMSTANCES];

        private static int place(RequirementKind kind, InterfaceType type, Circumstance circumstance) {
            return (kind.ordinal() * TYPES + type.ordinal()) * CIRCUMSTANCES + circumstance.ordinal();
        }
    }

    private record Named(String key, @Nullable String about) {}

    private record Found(@Nullable Decided decided) {}

    private record Classed(String deviceClass, InterfaceType type) {}

    private record Factored(@Nullable Factor factor) {}

    @Override
    public @Nullable Demand demand(RequirementKind kind, InterfaceType type, Circumstance circumstance) {
        int place = Demands.place(kind, type, circumstance);
        Answered answered = demands.answered[place];
        if (answered == null) {
            answered = new Answered(find(new Asked(kind, type, circumstance)));
            demands.answered[place] = answered;
        }
        return answered.demand();
    }

    private @Nullable Demand find(Asked asked) {
        if (set == null) {
            return null;
        }
        List<Rule> rules = set.rules(asked.kind(), asked.type(), day);
        Rule rule = nearest(rules, asked.circumstance());
        if (rule == null && asked.circumstance() != Circumstance.ALWAYS) {
            rule = nearest(rules, Circumstance.ALWAYS);
        }
        return rule == null || rule.effect() == Effect.NOT_REQUIRED ? null : demand(rule, asked.type());
    }

    /**
     * Of several rules the one that speaks for the fewest interface types: what is said of apparatus alone is meant to differ from
     * what is said of every device. Of two that speak for as many, one that asks for something goes before one that does not.
     */
    private static @Nullable Rule nearest(List<Rule> rules, Circumstance circumstance) {
        Rule nearest = null;
        for (Rule rule : rules) {
            if (rule.when() == circumstance && (nearest == null || isNearer(rule, nearest))) {
                nearest = rule;
            }
        }
        return nearest;
    }

    private static boolean isNearer(Rule one, Rule other) {
        int types = Integer.compare(one.interfaces().size(), other.interfaces().size());
        return types < 0
                || (types == 0 && other.effect() == Effect.NOT_REQUIRED && one.effect() != Effect.NOT_REQUIRED);
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
            return decided.term();
        } catch (Refused noTerm) {
            return null;
        }
    }

    @Override
    public @Nullable Decided decision(String key, @Nullable String about) {
        Named named = new Named(key, about);
        Found found = decisions.get(named);
        if (found == null) {
            found = new Found(decided(key, about));
            decisions.put(named, found);
        }
        return found.decided();
    }

    private @Nullable Decided decided(String key, @Nullable String about) {
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
        return factors.computeIfAbsent(new Classed(deviceClass, model.type()), classed -> factor(set, classed))
                .factor();
    }

    private Factored factor(RuleSet of, Classed classed) {
        ProtectionFactor factor = of.factor(classed.deviceClass(), day)
                .filter(found -> found.interfaces().contains(classed.type()))
                .orElse(null);
        Provenance dangerousAir = of.dangerousAir(classed.deviceClass(), day)
                .map(DangerousAirRule::provenance)
                .orElse(null);
        return new Factored(
                factor == null
                        ? null
                        : new Factor(factor.factor(), classed.deviceClass(), factor.provenance(), dangerousAir));
    }

    @Override
    public @Nullable FitTestRule fitTest(InterfaceType type) {
        return fitTests.get(type);
    }

    @Override
    public List<PublishedLimit> limits(PublishedLimit.Quantity quantity) {
        return limits.getOrDefault(quantity, List.of());
    }

    @Override
    public List<RetentionRule> retention() {
        return set == null ? List.of() : set.retention();
    }

    @Override
    public YearReading yearReading() {
        return yearReading;
    }

    @Override
    public String ruleSet() {
        return ruleSet;
    }

    @Override
    public Instant changesAt() {
        return changesAt;
    }
}
