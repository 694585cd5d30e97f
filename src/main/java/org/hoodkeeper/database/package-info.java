/**
 * The ground of the service: which PostgreSQL it runs on, which role signs in there, which site a transaction may see,
 * and the one clock.
 */
@ApplicationModule(allowedDependencies = {"kernel"})
@NullMarked
package org.hoodkeeper.database;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
