package org.hoodkeeper.calculation.parts;

/** How a set or its air can fail. What would have caught one would not have caught another. */
public enum FailureMode {
    /** Too little air. */
    LOW_FLOW,
    /** A tear, a crack, a valve that does not seat: seen when looked at. */
    DAMAGE,
    /** Not disinfected, or not well enough. */
    DISINFECTION,
    /** Bad breathing air. */
    AIR,
    /** A wrong or recalled part. */
    PART,
    /** The battery ended, or did not hold. */
    BATTERY,
    /** It does not sit, or does not seal. */
    PLACEMENT,
    /** An instrument measured wrong. */
    INSTRUMENT
}
