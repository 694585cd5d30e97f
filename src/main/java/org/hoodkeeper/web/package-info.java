/** The pages by role and what they share: layout, form fields, words, shown dates and figures. Nothing depends on it. */
@ApplicationModule
@NullMarked
package org.hoodkeeper.web;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
