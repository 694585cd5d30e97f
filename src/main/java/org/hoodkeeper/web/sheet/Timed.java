package org.hoodkeeper.web.sheet;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import org.hoodkeeper.kernel.LocalTimes;
import org.hoodkeeper.kernel.LocalTimes.Occurrence;
import org.jspecify.annotations.Nullable;

/** A form that says when it happened; nothing typed means now. */
public interface Timed {

    @Nullable LocalDateTime at();

    /** Which of two, where the typed time occurs twice. */
    @Nullable Occurrence atOccurrence();

    /** @throws org.hoodkeeper.kernel.Refused when the typed time does not occur, or occurs twice and none was picked */
    default Instant instant(ZoneId zone, Instant now) {
        LocalDateTime typed = at();
        return typed == null ? now : LocalTimes.instantOf(typed, zone, atOccurrence());
    }
}
