/** The JSON interface for commands: the same services as the pages. Nothing depends on it. */
@ApplicationModule(
        allowedDependencies = {
            "kernel",
            "database",
            "access",
            "exchange",
            "assessment",
            "facts",
            "rules",
            "kit",
            "programme",
            "reporting",
            "web"
        })
@NullMarked
package org.hoodkeeper.api;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
