/** Workers and who employs them. What changes with a date, postings among it, is told to the ledger. */
@ApplicationModule(allowedDependencies = {"kernel", "ledger", "facts"})
@NullMarked
package org.hoodkeeper.people;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
