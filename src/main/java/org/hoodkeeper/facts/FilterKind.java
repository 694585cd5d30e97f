package org.hoodkeeper.facts;

/** What a filter stops: particles, or a group of gases by the letters of EN 14387. */
public enum FilterKind {
    PARTICLE,
    A,
    B,
    E,
    K,
    AX,
    HG
}
