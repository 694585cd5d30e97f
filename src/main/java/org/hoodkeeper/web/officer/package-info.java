/** The officer's pages: the site at a moment, and the file of one person. */
@NullMarked
package org.hoodkeeper.web.officer;

import org.jspecify.annotations.NullMarked;
