/** Which part sat where and when, which of them a recall means, and since when a fault may have been there. */
@NamedInterface("parts")
@NullMarked
package org.hoodkeeper.calculation.parts;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
