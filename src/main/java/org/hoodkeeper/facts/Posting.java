package org.hoodkeeper.facts;

/** A worker is posted to a task, the item, from an instant and until another. */
public record Posting(Change change) implements Fact {

    public enum Change {
        POSTED,
        /** Ends every posting of that worker to that task from its instant on. */
        ENDED
    }
}
