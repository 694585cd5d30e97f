/**
 * Questions across modules: set-based loaders, the answer to a question, boards and files. Reads the tables of other modules,
 * writes none but its own stored answers.
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
            "programme"
        })
@NullMarked
package org.hoodkeeper.reporting;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
