package org.hoodkeeper.exchange;

import java.util.regex.Pattern;

/**
 * Keeps a spreadsheet from taking text for a formula: such a text gets an apostrophe in front, which the import takes off again.
 * The signs are those of OWASP's page on CSV injection, with their full-width forms.
 */
public final class Guard {

    private static final Pattern FORMULA =
            Pattern.compile("'*[=+\\-@\\t\\r\\n\uff1d\uff0b\uff0d\uff20].*", Pattern.DOTALL);
    private static final Pattern GUARDED =
            Pattern.compile("'+[=+\\-@\\t\\r\\n\uff1d\uff0b\uff0d\uff20].*", Pattern.DOTALL);

    private Guard() {}

    public static String put(String text) {
        return FORMULA.matcher(text).matches() ? "'" + text : text;
    }

    static String take(String cell) {
        return GUARDED.matcher(cell).matches() ? cell.substring(1) : cell;
    }
}
