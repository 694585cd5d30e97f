/** Coming in: sign-in, the first administrator, choosing a password and a site. */
@NullMarked
package org.hoodkeeper.web.signin;

import org.jspecify.annotations.NullMarked;
