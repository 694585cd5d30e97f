/** The pages of the hygienist: what tasks expose people to, and the limits. */
@NullMarked
package org.hoodkeeper.web.hygienist;

import org.jspecify.annotations.NullMarked;
