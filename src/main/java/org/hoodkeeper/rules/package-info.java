/** What is required, by which rule and source, for how long: rule sets, requirement kinds and interval arithmetic. Plain Java. */
@ApplicationModule(allowedDependencies = {"kernel", "facts"})
@NullMarked
package org.hoodkeeper.rules;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
