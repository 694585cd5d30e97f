/** What the safety officer answers for: what was told late or wrongly and what follows, how long records are kept, and proof. */
@ApplicationModule(
        allowedDependencies = {
            "kernel",
            "facts",
            "rules",
            "calculation",
            "assessment",
            "ledger",
            "people",
            "kit",
            "programme",
            "evidence",
            "reporting",
            "database",
            "access"
        })
@NullMarked
package org.hoodkeeper.oversight;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
