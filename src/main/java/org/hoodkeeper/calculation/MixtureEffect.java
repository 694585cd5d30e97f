package org.hoodkeeper.calculation;

/** How several substances act together. Where nobody knows, they are taken to add up, which is the stricter. */
public enum MixtureEffect {
    /** They harm the same thing: the shares of the limits add up. 29 CFR 1910.1000(d)(2). */
    ADDITIVE,
    /** They harm different things: the greatest share decides. Common practice, no source for the maximum as such. */
    INDEPENDENT
}
