package org.hoodkeeper.rules;

/** From which day a rule's term runs. */
public enum Anchor {
    /** No term, or nothing to count from: each use, each donning, as long as it is in force. */
    NONE,
    /** The day of the event itself: done late, the next counts from then. */
    EVENT_DAY,
    /** Whole terms from the first time, however late one was done. */
    FIRST_TIME,
    /** The day on which a part was made. */
    MANUFACTURE
}
