/** The storekeeper's pages: the bench, each set, and what is recorded there. */
@NullMarked
package org.hoodkeeper.web.store;

import org.jspecify.annotations.NullMarked;
