/** The pages of the supervisor: postings, suspensions and what is seen on the round. */
@NullMarked
package org.hoodkeeper.web.supervisor;

import org.jspecify.annotations.NullMarked;
