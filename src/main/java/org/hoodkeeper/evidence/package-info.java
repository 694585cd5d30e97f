/** One door for each kind of record: what is told is checked, locked, judged where it must be, and added to the ledger. */
@ApplicationModule(
        allowedDependencies = {
            "kernel",
            "ledger",
            "facts",
            "rules",
            "calculation",
            "calculation :: *",
            "assessment",
            "people",
            "kit",
            "programme"
        })
@NullMarked
package org.hoodkeeper.evidence;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
