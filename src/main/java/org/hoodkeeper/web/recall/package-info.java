/** Recalls: what was called back, which sets have it, and how far it is. */
@NullMarked
package org.hoodkeeper.web.recall;

import org.jspecify.annotations.NullMarked;
