/** What a site has decided: the site itself, its tasks, hazards, limits and the rules in force there. */
@ApplicationModule(allowedDependencies = {"kernel", "ledger", "facts", "rules", "database"})
@NullMarked
package org.hoodkeeper.programme;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
