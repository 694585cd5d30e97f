package org.hoodkeeper.web.store;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * One line of a history.
 *
 * @param at when it was true
 * @param told when the site was told, where that is not the same minute; else none
 * @param replaced it was corrected or withdrawn later
 */
record Happening(Instant at, String what, @Nullable Instant told, String by, boolean replaced) {}
