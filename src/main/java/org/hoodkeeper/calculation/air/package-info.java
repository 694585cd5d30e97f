/** Breathing air: a test against the limits of its edition, and how many hoods a supply feeds. */
@NamedInterface("air")
@NullMarked
package org.hoodkeeper.calculation.air;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
