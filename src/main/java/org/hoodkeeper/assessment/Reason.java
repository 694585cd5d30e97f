package org.hoodkeeper.assessment;

import java.time.Instant;
import java.util.List;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.rules.InForce;
import org.hoodkeeper.rules.RequirementKind;
import org.jspecify.annotations.Nullable;

/**
 * One requirement, how it came out at some instant and what decided it.
 *
 * @param details figures and codes for the words: readings, limits, model codes; never names or free text
 * @param record the deciding record, where there is one
 * @param demand the rule it rests on, where a rule asks
 * @param goodUntil when the evidence that meets it ends; excluded; none where it has no end
 */
public record Reason(
        RequirementKind kind,
        Result result,
        Why why,
        List<Object> details,
        @Nullable RecordId record,
        InForce.@Nullable Demand demand,
        @Nullable Instant goodUntil) {

    private static final int RESULTS = Result.values().length;
    private static final int WHYS = Why.values().length;

    /** Those that say nothing more: half of all. Two threads may make the same. */
    private static final @Nullable Reason[] PLAIN =
            new @Nullable Reason[RequirementKind.values().length * RESULTS * WHYS];

    /** Without figures, record or rule. */
    static Reason plain(RequirementKind kind, Result result, Why why) {
        int place = (kind.ordinal() * RESULTS + result.ordinal()) * WHYS + why.ordinal();
        Reason plain = PLAIN[place];
        if (plain == null) {
            plain = new Reason(kind, result, why, List.of(), null, null, null);
            PLAIN[place] = plain;
        }
        return plain;
    }

    static Reason of(RequirementKind kind, Result result, Why why, Object... details) {
        return new Reason(kind, result, why, List.of(details), null, null, null);
    }

    Reason record(@Nullable RecordId decides) {
        return new Reason(kind, result, why, details, decides, demand, goodUntil);
    }

    Reason by(InForce.@Nullable Demand rule) {
        return new Reason(kind, result, why, details, record, rule, goodUntil);
    }

    Reason goodUntil(@Nullable Instant end) {
        return new Reason(kind, result, why, details, record, demand, end);
    }
}
