/** What follows for earlier results when an instrument is found wrong. */
@NamedInterface("measure")
@NullMarked
package org.hoodkeeper.calculation.measure;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
