/** Models, sets, instruments and air supplies, and who has which set. */
@ApplicationModule(allowedDependencies = {"kernel", "ledger", "facts"})
@NullMarked
package org.hoodkeeper.kit;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
