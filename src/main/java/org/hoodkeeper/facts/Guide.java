package org.hoodkeeper.facts;

/** A piece of work on a set that is done step by step, one thing at a time. */
public enum Guide {
    /** Unpacking and putting together. */
    ASSEMBLY,
    /** Looking over every part that the model has. */
    INSPECTION,
    /** Measuring the flow with an indicator. */
    FLOW,
    /** Putting it on, and the check of its place all round. */
    DONNING,
    /** Changing one part; the record's scope says which. */
    CHANGE
}
