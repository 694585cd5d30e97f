/** What a worker records about themself, and a supervisor for them. */
@NullMarked
package org.hoodkeeper.web.worker;

import org.jspecify.annotations.NullMarked;
