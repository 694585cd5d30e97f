/** The pages of the health role: outcomes, and reports of symptoms that nobody else reads. */
@NullMarked
package org.hoodkeeper.web.health;

import org.jspecify.annotations.NullMarked;
