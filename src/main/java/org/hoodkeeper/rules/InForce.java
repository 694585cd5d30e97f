package org.hoodkeeper.rules;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/** The rules and site decisions of one instant, as known at one moment. */
public interface InForce {

    /**
     * What the rule set, or the site where the law leaves it open, asks for.
     *
     * @param circumstance the circumstance that the requirement finds; a rule without one speaks where none speaks for it
     * @return none where nothing is asked for
     */
    @Nullable Demand demand(RequirementKind kind, InterfaceType type, Circumstance circumstance);

    default @Nullable Demand demand(RequirementKind kind, InterfaceType type) {
        return demand(kind, type, Circumstance.ALWAYS);
    }

    /**
     * What the site decided, or the rule set's default.
     *
     * @param key the decision's key
     * @param about what it is about, for decisions that can be made for one thing alone, such as one revision of a seal
     * @return none where neither site nor rule set says anything
     */
    @Nullable Decided decision(String key, @Nullable String about);

    default @Nullable Decided decision(String key) {
        return decision(key, null);
    }

    /** The assigned protection factor for that model; none where the rule set does not know its class. */
    @Nullable Factor factor(ModelData model);

    /** When a fit test of that type is passed; none where the rule set knows no test for it. */
    @Nullable FitTestRule fitTest(InterfaceType type);

    /** The figures that the rule set gives for it, each for the types that it names; empty where it gives none. */
    List<PublishedLimit> limits(PublishedLimit.Quantity quantity);

    /** How long records are kept, whatever their kind; empty where no rule set is in force, which is unknown and never "not". */
    List<RetentionRule> retention();

    YearReading yearReading();

    /** Code and version of the rule set, for instance {@code uk 2026-5}; {@code none} where none is in force. */
    String ruleSet();

    /** The next instant at which another rule, factor or decision comes into force; {@link Instant#MAX} for none. */
    Instant changesAt();

    /**
     * A requirement as the rule set or the site makes it.
     *
     * @param code the rule's code
     * @param term how long evidence is good; none where it has no end
     * @param decisionKey the site decision that gives the term or makes the demand; none where the law does
     * @param decided the record of that decision; none where the rule set's default counts
     * @param isUndecided it rests on a site decision that has not been made and for which there is no default
     */
    record Demand(
            String code,
            @Nullable Term term,
            Provenance provenance,
            @Nullable String decisionKey,
            @Nullable RecordId decided,
            boolean isUndecided) {}

    /** A site decision, or a default. Its value is read once, however often it is asked for. */
    final class Decided {

        private final String key;
        private final String value;
        private final Mark mark;
        private final @Nullable RecordId record;
        private @Nullable Duration duration;
        private @Nullable Term term;
        private @Nullable BigDecimal number;

        Decided(String key, String value, Mark mark, @Nullable RecordId record) {
            this.key = key;
            this.value = value;
            this.mark = mark;
            this.record = record;
        }

        public String key() {
            return key;
        }

        public String value() {
            return value;
        }

        public Mark mark() {
            return mark;
        }

        /** None for a default. */
        public @Nullable RecordId record() {
            return record;
        }

        public boolean isYes() {
            return value.equals("yes");
        }

        /** Of decisions that are an elapsed time. */
        public Duration duration() {
            Duration read = duration;
            if (read == null) {
                read = Duration.parse(value);
                duration = read;
            }
            return read;
        }

        /**
         * Of decisions that are a term.
         *
         * @throws Refused as {@code rules.term} where the value is none
         */
        public Term term() {
            Term read = term;
            if (read == null) {
                read = Term.of(value);
                term = read;
            }
            return read;
        }

        /**
         * Of decisions that are a part of a whole, above 0 and at most 1.
         *
         * @return none where it is none, as one that was told before such decisions were checked may be
         */
        public @Nullable BigDecimal share() {
            return SiteDecisionRule.isShare(number()) ? number() : null;
        }

        /** Of decisions that are a number. */
        public BigDecimal number() {
            BigDecimal read = number;
            if (read == null) {
                read = new BigDecimal(value);
                number = read;
            }
            return read;
        }
    }

    /** @param dangerousAir why the class may be worn in an immediately dangerous air; none where it may not */
    record Factor(
            BigDecimal value,
            String deviceClass,
            Provenance provenance,
            @Nullable Provenance dangerousAir) {

        /** In that air no maximum use concentration is applied to it: 29 CFR 1910.134(d)(3)(i)(B)(2). */
        public boolean isForDangerousAir() {
            return dangerousAir != null;
        }
    }
}
