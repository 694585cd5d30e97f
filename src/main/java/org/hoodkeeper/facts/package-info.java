/** Everything a verdict rests on, as values. Plain Java: no framework, no clock, no text for people. */
@ApplicationModule(allowedDependencies = {"kernel"})
@NullMarked
package org.hoodkeeper.facts;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
