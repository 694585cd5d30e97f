package org.hoodkeeper.facts;

import org.jspecify.annotations.Nullable;

/**
 * Something happened that puts a task's basis in question.
 *
 * @param step opened, or closed by the officer, which names the trigger as its item
 */
public record TaskTrigger(Step step, String what, @Nullable String note) implements Fact {

    public enum Step {
        OPENED,
        CLOSED
    }
}
