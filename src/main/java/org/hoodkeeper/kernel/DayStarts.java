package org.hoodkeeper.kernel;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.zone.ZoneOffsetTransition;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;

/** A zone's days and their first instants, each worked out once: every judgement asks for the same ones. */
final class DayStarts {

    private static final int FIRST = (int) LocalDate.of(2000, 1, 1).toEpochDay();
    private static final int LAST = (int) LocalDate.of(2050, 1, 1).toEpochDay();
    private static final int SECONDS_OF_A_DAY = 86_400;
    /** Offsets lie within 18 hours: with two days more none is 0. */
    private static final int SHIFT = 2 * SECONDS_OF_A_DAY;
    /** The clock changes on that day. */
    private static final int CHANGES = -1;

    private static final Map<ZoneId, DayStarts> ZONES = new ConcurrentHashMap<>();
    /** Asked for again and again for one site. Two sites may take turns in it, and two threads set it at once. */
    private static @Nullable DayStarts last;

    private final ZoneId zone;
    /** Two threads may work out the same one. */
    private final @Nullable Instant[] starts = new @Nullable Instant[LAST - FIRST];

    /** Seconds east of Greenwich on its days, with {@link #SHIFT}; 0 where not looked up yet. */
    private final int[] offsets = new int[LAST - FIRST];

    private final @Nullable LocalDate[] days = new @Nullable LocalDate[LAST - FIRST];

    private DayStarts(ZoneId zone) {
        this.zone = zone;
    }

    static DayStarts in(ZoneId zone) {
        DayStarts starts = last;
        if (starts == null || !starts.zone.equals(zone)) {
            starts = ZONES.computeIfAbsent(zone, DayStarts::new);
            last = starts;
        }
        return starts;
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

    /** The day on which an instant lies. On days when the clock changes it is asked of the zone's rules. */
    LocalDate dayOf(Instant instant) {
        long greenwich = Math.floorDiv(instant.getEpochSecond(), SECONDS_OF_A_DAY) - FIRST;
        if (greenwich < 1 || greenwich >= offsets.length - 1) {
            return LocalDate.ofInstant(instant, zone);
        }
        int offset = offsets[(int) greenwich];
        if (offset == 0) {
            offset = offsetOf(greenwich);
            offsets[(int) greenwich] = offset;
        }
        return offset == CHANGES
                ? LocalDate.ofInstant(instant, zone)
                : day((int) (Math.floorDiv(instant.getEpochSecond() + offset - SHIFT, SECONDS_OF_A_DAY) - FIRST));
    }

    private int offsetOf(long greenwich) {
        Instant first = Instant.ofEpochSecond((FIRST + greenwich) * SECONDS_OF_A_DAY);
        ZoneOffsetTransition next = zone.getRules().nextTransition(first.minusSeconds(1));
        return next == null || !next.getInstant().isBefore(first.plusSeconds(SECONDS_OF_A_DAY))
                ? zone.getRules().getOffset(first).getTotalSeconds() + SHIFT
                : CHANGES;
    }

    private LocalDate day(int place) {
        LocalDate day = days[place];
        if (day == null) {
            day = LocalDate.ofEpochDay((long) FIRST + place);
            days[place] = day;
        }
        return day;
    }
}
