/** What a basket of parts may be washed with, how much product goes into how much water, how long it stays wet. */
@NamedInterface("wash")
@NullMarked
package org.hoodkeeper.calculation.wash;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
