package org.hoodkeeper.calculation.wash;

/** How far a cleaning goes, the gentlest first. */
public enum WashMethod {
    WIPE,
    SPRAY,
    HAND_WASH,
    IMMERSION,
    MACHINE_WASH
}
