/** Where requests come in: headers, sessions, sign-in, tokens, and the gate before each page. */
@NullMarked
package org.hoodkeeper.access.edge;

import org.jspecify.annotations.NullMarked;
