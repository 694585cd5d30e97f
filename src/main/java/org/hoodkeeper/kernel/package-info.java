/** Words that every module shares: typed ids, intervals, the site's zone, refusals. Plain Java. */
@ApplicationModule(allowedDependencies = {})
@NullMarked
package org.hoodkeeper.kernel;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
