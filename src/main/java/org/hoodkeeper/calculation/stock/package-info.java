/** How many spares, how much stock, how many places at the wash. */
@NamedInterface("stock")
@NullMarked
package org.hoodkeeper.calculation.stock;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
