/** What the site holds: tasks, models, instruments and air supplies, each with the way to its page and to a new one. */
@NullMarked
package org.hoodkeeper.web.register;

import org.jspecify.annotations.NullMarked;
