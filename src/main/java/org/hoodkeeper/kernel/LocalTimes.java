package org.hoodkeeper.kernel;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.zone.ZoneOffsetTransition;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a typed local date and time means in a site's zone. On the night the clocks go back some times occur twice and
 * the person is asked which; on the night they go forward some do not occur and are refused. Nothing is guessed.
 */
public final class LocalTimes {

    private LocalTimes() {}

    /** Which of the two occurrences of a repeated local time is meant. */
    public enum Occurrence {
        EARLIER,
        LATER
    }

    /**
     * One reading of a typed time, or two that the person must choose from.
     *
     * @param later the second occurrence, null where the time occurs once
     */
    public record Meaning(ZonedReading earlier, @Nullable ZonedReading later) {

        public boolean isAmbiguous() {
            return later != null;
        }

        /** Both readings of a repeated time, or the one there is. */
        public List<ZonedReading> readings() {
            return later == null ? List.of(earlier) : List.of(earlier, later);
        }
    }

    /** An instant and the offset under which a clock on the wall showed it. */
    public record ZonedReading(Instant instant, ZoneOffset offset) {}

    /** @throws Refused {@code time.notOccurring} (typed time, first local time after the gap, zone) */
    public static Meaning meaningOf(LocalDateTime typed, ZoneId zone) {
        List<ZoneOffset> offsets = zone.getRules().getValidOffsets(typed);
        if (offsets.isEmpty()) {
            ZoneOffsetTransition gap = zone.getRules().getTransition(typed);
            throw new Refused("time.notOccurring", typed, gap.getDateTimeAfter(), zone);
        }
        ZonedReading first = reading(typed, offsets.get(0));
        return new Meaning(first, offsets.size() == 1 ? null : reading(typed, offsets.get(1)));
    }

    /**
     * The one instant a typed time names.
     *
     * @param chosen the occurrence the person picked when asked; ignored where the time occurs once
     * @throws Refused {@code time.notOccurring} as {@link #meaningOf}; {@code time.twice} (typed time, earlier offset,
     *     later offset, zone) when the time occurs twice and none was picked
     */
    public static Instant instantOf(LocalDateTime typed, ZoneId zone, @Nullable Occurrence chosen) {
        Meaning meaning = meaningOf(typed, zone);
        ZonedReading later = meaning.later();
        if (later == null || chosen == Occurrence.EARLIER) {
            return meaning.earlier().instant();
        }
        if (chosen == Occurrence.LATER) {
            return later.instant();
        }
        throw new Refused("time.twice", typed, meaning.earlier().offset(), later.offset(), zone);
    }

    private static ZonedReading reading(LocalDateTime typed, ZoneOffset offset) {
        return new ZonedReading(typed.toInstant(offset), offset);
    }
}
