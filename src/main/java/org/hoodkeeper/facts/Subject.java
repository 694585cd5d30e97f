package org.hoodkeeper.facts;

/** What a kind of record is about. */
public enum Subject {
    WORKER,
    SET,
    MODEL,
    TASK,
    INSTRUMENT,
    SUPPLY,
    SITE,
    /** A worker, a set, a task, a supply or an instrument: holds. */
    ANY
}
