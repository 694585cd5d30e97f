/** The administrator's pages: accounts, what waits for a second person, and each person's own tokens. */
@NullMarked
package org.hoodkeeper.web.administrator;

import org.jspecify.annotations.NullMarked;
