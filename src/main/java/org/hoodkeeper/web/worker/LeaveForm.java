package org.hoodkeeper.web.worker;

import org.jspecify.annotations.Nullable;

/** @param entry the way in that it ends */
record LeaveForm(@Nullable String entry) {}
