/**
 * The store's work: what is ready and what blocks each set, and handing kit out and taking it back. Evidence is recorded through
 * its own doors; what is decided here is judged by the same engine as everywhere.
 */
@ApplicationModule(
        allowedDependencies = {
            "kernel",
            "facts",
            "rules",
            "calculation",
            "calculation :: *",
            "assessment",
            "ledger",
            "people",
            "kit",
            "programme",
            "evidence",
            "reporting"
        })
@NullMarked
package org.hoodkeeper.store;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
