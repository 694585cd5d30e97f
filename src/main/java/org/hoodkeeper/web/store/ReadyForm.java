package org.hoodkeeper.web.store;

import java.time.LocalDateTime;
import org.jspecify.annotations.Nullable;

/**
 * When sets are to be ready; stands in the address.
 *
 * @param at local to the site; the next 06:00 where left out
 * @param level how surely enough sets are to be ready, for the spare pool; as the site decided where left out
 */
public record ReadyForm(
        @Nullable LocalDateTime at, @Nullable String level) {}
