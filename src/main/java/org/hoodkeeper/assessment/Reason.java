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
