package org.hoodkeeper.facts;

import java.math.BigDecimal;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A fit test of one worker on one exact variant; the scope is {@link Variant#toString()}. Raw results are kept: the pass
 * rule is the rule set's, and the same exercises can pass in one and fail in the other.
 *
 * @param method how it was done
 * @param protocol the protocol's name
 * @param exercises fit factor of each exercise in order, without the grimace; empty for a qualitative test
 * @param outcome pass or fail as the tester judged it, by the rule set then in force
 * @param negativeMode a powered or supplied-air mask was tested in negative-pressure mode
 */
public record FitTest(
        Method method,
        @Nullable String protocol,
        List<BigDecimal> exercises,
        Outcome outcome,
        boolean negativeMode,
        @Nullable String tester)
        implements Fact {

    public enum Method {
        QUANTITATIVE,
        QUALITATIVE
    }

    public FitTest {
        exercises = exercises == null ? List.of() : List.copyOf(exercises);
    }
}
