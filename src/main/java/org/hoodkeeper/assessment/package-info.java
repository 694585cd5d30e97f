/** The question and its judgement: who may wear what, where, until when, and why not. Plain Java. */
@ApplicationModule(
        allowedDependencies = {"kernel", "facts", "rules", "calculation", "calculation :: air", "calculation :: parts"})
@NullMarked
package org.hoodkeeper.assessment;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
