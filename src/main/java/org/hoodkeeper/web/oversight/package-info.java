/** The safety officer's looking back: findings and the files of incidents. */
@NullMarked
package org.hoodkeeper.web.oversight;

import org.jspecify.annotations.NullMarked;
