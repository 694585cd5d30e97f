package org.hoodkeeper.store;

import java.util.Locale;
import java.util.Objects;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/**
 * What a printed label says to a reader of codes: site, label and a check character, for instance {@code ferrow/S-098/K}. The
 * check character finds each single wrong sign and each swap of two neighbours: ISO 7064, MOD 37,36, over the letters and
 * digits of site and label.
 *
 * @param site the site's code; none where only a label was typed
 * @param label the label itself
 */
public record LabelCode(@Nullable String site, String label) {

    private static final String SIGNS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";

    /** The text behind a label's code. @param site the site's code @param label the thing's label */
    public static String print(String site, String label) {
        return site + "/" + label + "/" + check(site + label);
    }

    /**
     * Reads what a scanner or a hand gave. Without slashes it is a bare label, which has no check character.
     *
     * @throws Refused {@code label.misread} when the check character does not fit, or the text has slashes and is no label
     */
    public static LabelCode read(String text) {
        String[] pieces = text.strip().split("/", -1);
        if (pieces.length == 1) {
            return new LabelCode(null, pieces[0]);
        }
        boolean whole = pieces.length == 3 && !pieces[0].isEmpty() && !pieces[1].isEmpty() && pieces[2].length() == 1;
        if (!whole || check(pieces[0] + pieces[1]) != Character.toUpperCase(pieces[2].charAt(0))) {
            throw new Refused("label.misread", text.length() > 60 ? text.substring(0, 60) : text);
        }
        return new LabelCode(pieces[0], pieces[1]);
    }

    /** Whether it is of that site; a bare label is of any. */
    public boolean isOf(String siteCode) {
        return site == null || site.equalsIgnoreCase(siteCode);
    }

    /** ISO 7064 MOD 37,36: signs that are neither letter nor digit are left out. */
    static char check(String text) {
        int product = 36;
        for (char sign : Objects.requireNonNull(text).toUpperCase(Locale.ROOT).toCharArray()) {
            int value = SIGNS.indexOf(sign);
            if (value >= 0) {
                int sum = (product + value) % 36;
                product = (sum == 0 ? 36 : sum) * 2 % 37;
            }
        }
        return SIGNS.charAt((37 - product) % 36);
    }
}
