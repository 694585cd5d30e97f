package org.hoodkeeper.rules;

import java.math.BigDecimal;
import java.time.Instant;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.kernel.RecordId;
import org.jspecify.annotations.Nullable;

/** The rules and site decisions of one instant, as known at one moment. */
public interface InForce {

    /** @param emergency whether the set is kept for emergencies @return none where the rule set asks for nothing */
    @Nullable Demand demand(RequirementKind kind, InterfaceType type, boolean emergency);

    /** What the site decided, or the rule set's default; none where neither says anything. */
    @Nullable Decided decision(String key);

    /** The assigned protection factor for that model; none where the rule set does not know its class. */
    @Nullable Factor factor(ModelData model);

    YearReading yearReading();

    PassRule fitTestRule();

    /** Code and version of the rule set, for instance {@code uk 2026-1}. */
    String ruleSet();

    /** The next instant at which another rule, factor or decision comes into force; {@link Instant#MAX} for none. */
    Instant changesAt();

    /**
     * A requirement as the rule set or the site makes it.
     *
     * @param term how long evidence is good; none where it has no end
     * @param longest for a rule with a second limit, such as "never more than three months unused"
     * @param clause where it stands
     * @param decision the site decision it rests on, where the law leaves it open
     */
    record Demand(
            String code,
            @Nullable Term term,
            @Nullable Term longest,
            String clause,
            String source,
            Mark mark,
            @Nullable RecordId decision) {}

    /** A site decision, or a default. @param record none for a default */
    record Decided(String key, String value, Mark mark, @Nullable RecordId record) {

        public boolean isYes() {
            return value.equals("yes");
        }
    }

    record Factor(BigDecimal value, String deviceClass, String clause, String source, Mark mark) {}

    /** How a rule set reads a fit test's exercises. */
    enum PassRule {
        /** US: the overall value decides. */
        OVERALL,
        /** UK: every exercise decides. */
        EVERY_EXERCISE
    }
}
