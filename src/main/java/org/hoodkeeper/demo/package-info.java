/** Lays the invented sites of {@code demo-data/} through the services, as a site would bring in its own files. */
@ApplicationModule(allowedDependencies = {"kernel", "database", "access", "people", "programme", "exchange"})
@NullMarked
package org.hoodkeeper.demo;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
