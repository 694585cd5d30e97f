/** How long parts last, and when one is due to be replaced. */
@NamedInterface("life")
@NullMarked
package org.hoodkeeper.calculation.life;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
