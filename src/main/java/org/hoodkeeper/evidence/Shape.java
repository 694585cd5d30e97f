package org.hoodkeeper.evidence;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/** The few shapes that every value of a record has: within a range, present, not too long, not before the trade began. */
final class Shape {

    /** Nothing that is judged today rests on a record before it; a year typed with two digits falls below. */
    static final LocalDate FIRST_DAY = LocalDate.of(1950, 1, 1);

    /** Days later than this are slips of the hand. */
    static final LocalDate LAST_DAY = LocalDate.of(2150, 12, 31);

    private static final int LONGEST_NAME = 120;
    private static final int LONGEST_NOTE = 2_000;

    private Shape() {}

    /** Both ends included; an absent value passes. */
    static void within(@Nullable BigDecimal value, String least, String most, String code) {
        if (value == null) {
            return;
        }
        BigDecimal low = new BigDecimal(least);
        BigDecimal high = new BigDecimal(most);
        if (value.compareTo(low) < 0 || value.compareTo(high) > 0) {
            throw new Refused(code, value, low, high);
        }
    }

    static void within(@Nullable Integer value, int least, int most, String code) {
        if (value != null && (value < least || value > most)) {
            throw new Refused(code, value, least, most);
        }
    }

    /** Above 0 and at most {@code most}; an absent value passes. */
    static void positive(@Nullable BigDecimal value, String most, String code) {
        if (value != null && (value.signum() <= 0 || value.compareTo(new BigDecimal(most)) > 0)) {
            throw new Refused(code, value, BigDecimal.ZERO, new BigDecimal(most));
        }
    }

    static void present(@Nullable Object value, String code) {
        if (value == null || (value instanceof String text && text.isBlank())) {
            throw new Refused(code);
        }
    }

    static void name(@Nullable String text, String field) {
        shorter(text, LONGEST_NAME, field);
    }

    static void note(@Nullable String text, String field) {
        shorter(text, LONGEST_NOTE, field);
    }

    /** What the service itself writes as a note, as far as one goes. */
    static String cut(String note) {
        return note.length() <= LONGEST_NOTE ? note : note.substring(0, LONGEST_NOTE - 1) + "…";
    }

    private static void shorter(@Nullable String text, int most, String field) {
        if (text != null && text.length() > most) {
            throw new Refused("record." + field + ".long", text.length(), most);
        }
    }

    static void day(@Nullable LocalDate day, String code) {
        if (day != null && (day.isBefore(FIRST_DAY) || day.isAfter(LAST_DAY))) {
            throw new Refused(code, day, FIRST_DAY, LAST_DAY);
        }
    }

    static void at(Instant at) {
        LocalDate day = LocalDate.ofInstant(at, ZoneOffset.UTC);
        if (day.isBefore(FIRST_DAY) || day.isAfter(LAST_DAY)) {
            throw new Refused("record.at.range", day, FIRST_DAY, LAST_DAY);
        }
    }
}
