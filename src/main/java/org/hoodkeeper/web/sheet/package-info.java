/** What every page that records something shares: its steps, the page to look answers over, and the one that says what was told. */
@NullMarked
package org.hoodkeeper.web.sheet;

import org.jspecify.annotations.NullMarked;
