package org.hoodkeeper.web.worker;

import java.time.LocalDateTime;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;

/** Somebody comes out. */
public record WearExitForm(
        @Nullable LocalDateTime at, @Nullable Occurrence atOccurrence) implements Timed {}
