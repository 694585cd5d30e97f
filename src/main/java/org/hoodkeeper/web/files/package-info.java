/** Files in and out: what there is, the columns, the report on a file, and its progress. */
@NullMarked
package org.hoodkeeper.web.files;

import org.jspecify.annotations.NullMarked;
