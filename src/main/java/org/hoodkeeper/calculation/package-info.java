/**
 * The trade’s sums: hazard ratio and adequacy, fit factors, flow correction, wear time, retention; in its sub-packages wash, trend,
 * part life, stock, part trace, breathing air and the chain of measurement. Plain Java on decimal
 * numbers, so that a figure that lies exactly on a limit is on it; no clock, no locale, no text for people.
 */
@ApplicationModule(allowedDependencies = {"kernel"})
@NullMarked
package org.hoodkeeper.calculation;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
