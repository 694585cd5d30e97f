package org.hoodkeeper.facts;

import org.hoodkeeper.kernel.TaskId;

/**
 * A worker wore a set, the item, at a task. Entry and exit come as two records, or as one that has both ends.
 *
 * @param task where
 * @param step entry alone, exit alone, or both in one
 */
public record Wear(TaskId task, Step step) implements Fact {

    public enum Step {
        ENTRY,
        EXIT,
        WHOLE
    }
}
