package org.hoodkeeper.facts;

/** How a check came out. */
public enum Outcome {
    PASS,
    FAIL
}
