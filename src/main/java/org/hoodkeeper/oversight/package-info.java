/**
 * What the safety officer answers for: what was told late or wrongly and what follows, findings and their closing, how long records
 * are kept, the file of an incident, and proof. Standing is derived from the record; only what somebody did about it is told to it.
 */
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
            "store",
            "database",
            "access"
        })
@NullMarked
package org.hoodkeeper.oversight;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
