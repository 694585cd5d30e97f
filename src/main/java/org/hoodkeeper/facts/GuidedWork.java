package org.hoodkeeper.facts;

import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Guided work on a set, with the answer to each step. A step that the model leaves out is not among the answers.
 *
 * @param guide which work
 * @param answers each step's code and how it came out
 * @param note what was seen, in the words of the one who looked
 */
public record GuidedWork(
        Guide guide, Map<String, Outcome> answers, @Nullable String note) implements Fact {

    public GuidedWork {
        answers = Ordered.copy(answers);
    }

    public boolean passed() {
        return !answers.isEmpty() && !answers.containsValue(Outcome.FAIL);
    }
}
