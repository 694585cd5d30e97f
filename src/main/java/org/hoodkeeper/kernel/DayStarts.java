package org.hoodkeeper.kernel;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;

/** The first instants of a zone's days, each worked out once: every judgement asks for the same ones. */
final class DayStarts {

    private static final int FIRST = (int) LocalDate.of(2000, 1, 1).toEpochDay();
    private static final int LAST = (int) LocalDate.of(2050, 1, 1).toEpochDay();
    private static final Map<ZoneId, DayStarts> ZONES = new ConcurrentHashMap<>();

    private final ZoneId zone;
    /** Two threads may work out the same one. */
    private final @Nullable Instant[] starts = new @Nullable Instant[LAST - FIRST];

    private DayStarts(ZoneId zone) {
        this.zone = zone;
    }

    static DayStarts in(ZoneId zone) {
        DayStarts starts = ZONES.get(zone);
        return starts == null ? ZONES.computeIfAbsent(zone, DayStarts::new) : starts;
    }

    Instant of(LocalDate day) {
        long place = day.toEpochDay() - FIRST;
        if (place < 0 || place >= starts.length) {
            return day.atStartOfDay(zone).toInstant();
        }
        Instant start = starts[(int) place];
        if (start == null) {
            start = day.atStartOfDay(zone).toInstant();
            starts[(int) place] = start;
        }
        return start;
    }
}
