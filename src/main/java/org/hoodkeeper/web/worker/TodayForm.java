package org.hoodkeeper.web.worker;

import java.time.LocalDateTime;
import org.jspecify.annotations.Nullable;

/**
 * What the worker asks about.
 *
 * @param task code of the task to show first; the best one where left out
 * @param until local end of the plan; eight hours from now where left out
 */
public record TodayForm(@Nullable String task, @Nullable LocalDateTime until) {}
