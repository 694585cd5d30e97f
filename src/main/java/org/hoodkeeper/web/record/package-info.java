/** The first page of those who record: for whom or what, and what. */
@NullMarked
package org.hoodkeeper.web.record;

import org.jspecify.annotations.NullMarked;
