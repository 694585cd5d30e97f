/** How the flow of a set runs towards its minimum, and sudden steps in it. */
@NamedInterface("trend")
@NullMarked
package org.hoodkeeper.calculation.trend;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
