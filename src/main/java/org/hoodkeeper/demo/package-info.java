/** Lays the invented sites of {@code demo-data/} through the services, as a site would bring in its own files. */
@ApplicationModule(
        allowedDependencies = {
            "kernel",
            "facts",
            "ledger",
            "database",
            "access",
            "people",
            "kit",
            "programme",
            "evidence",
            "exchange"
        })
@NullMarked
package org.hoodkeeper.demo;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
