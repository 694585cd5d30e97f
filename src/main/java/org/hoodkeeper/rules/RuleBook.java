package org.hoodkeeper.rules;

import java.time.Instant;

/** A site's rules and decisions through time, as known at one moment. */
public interface RuleBook {

    InForce at(Instant instant);
}
