/** The one door to the record: entries are added here and read here, and never changed. Treats every kind alike. */
@ApplicationModule(allowedDependencies = {"kernel", "facts", "database"})
@NullMarked
package org.hoodkeeper.ledger;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
