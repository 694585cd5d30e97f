/**
 * Accounts and their roles, sign-in, tokens for commands, and who may call which page. Accounts reach over sites, roles
 * do not: a role is held on one site, and a reader without any role there cannot tell that the site exists.
 *
 * <p>Time in here is the database's: links, pauses and tokens end by its clock, so that several instances agree and a
 * rehearsal that moves the trade's clock forward signs nobody out.
 */
@ApplicationModule(allowedDependencies = {"kernel", "database", "ledger", "programme"})
@NullMarked
package org.hoodkeeper.access;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
