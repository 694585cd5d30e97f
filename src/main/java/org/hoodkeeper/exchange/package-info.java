/** Everything a site has, as files: in with a report on every row, and out again with the same columns. */
@ApplicationModule(
        allowedDependencies = {
            "kernel",
            "facts",
            "rules",
            "calculation",
            "assessment",
            "ledger",
            "evidence",
            "people",
            "kit",
            "programme",
            "database",
            "access"
        })
@NullMarked
package org.hoodkeeper.exchange;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
