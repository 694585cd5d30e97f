@org.jspecify.annotations.NullMarked
package org.hoodkeeper;
