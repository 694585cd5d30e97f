package org.hoodkeeper.calculation.parts;

import org.jspecify.annotations.Nullable;

/**
 * A lot or serial as it is printed on a part. It is typed by hand from a worn print, so that case, spaces and dashes tell no two
 * marks apart: a recalled part that hides behind a dash is worse than one looked at in vain.
 */
public final class PrintedMark {

    private PrintedMark() {}

    /** Letters and digits alone, in capitals; a mark that has neither stays as it is. */
    public static String plain(String mark) {
        StringBuilder plain = new StringBuilder();
        mark.codePoints()
                .filter(Character::isLetterOrDigit)
                .map(Character::toUpperCase)
                .forEach(plain::appendCodePoint);
        return plain.isEmpty() ? mark.strip() : plain.toString();
    }

    /** A mark that is not on record is none of any. */
    public static boolean same(String one, @Nullable String other) {
        return other != null && (one.equals(other) || plain(one).equals(plain(other)));
    }
}
