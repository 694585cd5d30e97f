package org.hoodkeeper.web.worker;

import org.jspecify.annotations.Nullable;

/** @param entry the way in that it ends */
public record LeaveForm(@Nullable String entry) {}
