package org.hoodkeeper.rules;

/**
 * A class of device that may be worn in an air that is immediately dangerous to life or health, short of oxygen or unknown. Where
 * it may, the concentration that is immediately dangerous does not cut its use: 29 CFR 1910.134(d)(3)(i)(B)(2).
 *
 * @param deviceClass one of the classes of which the rule set knows the factor
 */
public record DangerousAirRule(String deviceClass, Provenance provenance, InForceDays inForce) {}
