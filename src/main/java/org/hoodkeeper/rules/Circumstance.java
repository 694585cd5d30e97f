package org.hoodkeeper.rules;

/** Under which circumstance a rule speaks. Several rules of one requirement may hold at once; the earliest end decides. */
public enum Circumstance {
    ALWAYS,
    /** Worn since the last time. */
    WORN_SINCE,
    /** Not worn since the last time: in store. */
    UNUSED_SINCE,
    /** Kept for emergencies. */
    EMERGENCY_SET,
    /** Only for getting out. */
    ESCAPE_ONLY,
    /** Used for fit tests or training. */
    FIT_TEST_SET,
    /** Worn by nobody else since. */
    ONE_WEARER,
    /** Somebody else wore it before. */
    CHANGE_OF_WEARER,
    /** An edge must lie on skin, whether the interface is tight-fitting or not. */
    SEALS_ON_SKIN,
    /** A change in the person, the device or the work since the last time. */
    CHANGED_SINCE,
    /** The air supply was moved, or what is near it changed. */
    MOVED_SINCE,
    /** Work with asbestos that needs a licence. */
    LICENSED_ASBESTOS,
    /** Work with asbestos that needs no licence but must be notified. */
    NOTIFIABLE_ASBESTOS
}
