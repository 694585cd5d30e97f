package org.hoodkeeper.rules;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.format.DateTimeParseException;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;
import java.util.regex.Pattern;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/**
 * Something that the law leaves to the site.
 *
 * @param key for instance {@code year.reading}; a decision taken for each of several things is kept under the key, a slash and
 *     the thing: {@code wear.longest/HALF_MASK}
 * @param each for what it is taken
 * @param form what a value looks like
 * @param choices the words that a choice allows; empty for every other form
 * @param byDefault what counts until the site has decided; none where nothing counts until then, and the meaning says what follows
 * @param mark how well the default is vouched for; none where there is no default
 * @param owner who answers for it
 * @param meaning what it decides, in English
 */
public record SiteDecisionRule(
        String key,
        Each each,
        Form form,
        List<String> choices,
        @Nullable String byDefault,
        @Nullable Mark mark,
        Owner owner,
        String meaning) {

    private static final String NONE = "none";

    private static final Pattern NUMBER = Pattern.compile("\\d{1,6}(\\.\\d{1,4})?");

    private static final Pattern DAYS = Pattern.compile("P\\d{1,4}D");

    /** Who answers for a decision on the site. */
    public enum Owner {
        OFFICER,
        HYGIENIST,
        HEALTH,
        STOREKEEPER
    }

    /** What a value looks like. */
    public enum Form {
        /** A term of years, months or days, such as {@code P24M}. */
        TERM,
        /** A term, or {@code none} where nothing runs out by the calendar. */
        TERM_OR_NONE,
        /** A number of days from none on, such as {@code P0D} or {@code P30D}. */
        DAYS,
        /** Elapsed time longer than none, such as {@code PT8H}. */
        DURATION,
        /** A number from 0 on, with a decimal point. */
        NUMBER,
        /** A part of a whole: a number above 0 and at most 1, with a decimal point. */
        SHARE,
        /** One of the listed words. */
        CHOICE
    }

    /** For what a decision is taken: once for the site, or for each of these. */
    public enum Each {
        SITE,
        INTERFACE_TYPE,
        /** Code of the model. */
        MODEL,
        /** Code of the model, a slash and the revision of its seal. */
        SEAL_REVISION
    }

    public SiteDecisionRule {
        choices = List.copyOf(choices);
        if (byDefault != null) {
            check(key, form, choices, byDefault);
        }
    }

    /**
     * Refuses a key or a value that does not have the form.
     *
     * @param fullKey the key, where it is taken for each of several things with the thing; refused as {@code rules.decision.key}
     * @param value refused as {@code rules.decision.value.} and the form, with key, value and choices
     */
    public void check(String fullKey, String value) {
        if (!isKey(fullKey)) {
            throw new Refused("rules.decision.key." + each.name(), fullKey, key);
        }
        check(fullKey, form, choices, value);
    }

    private boolean isKey(String fullKey) {
        if (each == Each.SITE || !fullKey.startsWith(key + "/")) {
            return each == Each.SITE && fullKey.equals(key);
        }
        List<String> thing = Arrays.asList(fullKey.substring(key.length() + 1).split("/", -1));
        return thing.stream().noneMatch(String::isBlank)
                && switch (each) {
                    case SITE -> false;
                    case INTERFACE_TYPE -> thing.size() == 1 && isInterface(thing.get(0));
                    case MODEL -> thing.size() == 1;
                    case SEAL_REVISION -> thing.size() == 2;
                };
    }

    private static void check(String key, Form form, List<String> choices, String value) {
        boolean good =
                switch (form) {
                    case TERM -> reads(value, Term::of);
                    case TERM_OR_NONE -> value.equals(NONE) || reads(value, Term::of);
                    case DAYS -> DAYS.matcher(value).matches();
                    case DURATION -> isDuration(value);
                    case NUMBER -> NUMBER.matcher(value).matches();
                    case SHARE -> NUMBER.matcher(value).matches() && isShare(new BigDecimal(value));
                    case CHOICE -> choices.contains(value);
                };
        if (!good) {
            throw new Refused("rules.decision.value." + form.name(), key, value, String.join(", ", choices));
        }
    }

    static boolean isShare(BigDecimal number) {
        return number.signum() > 0 && number.compareTo(BigDecimal.ONE) <= 0;
    }

    private static boolean isInterface(String value) {
        return Arrays.stream(InterfaceType.values())
                .anyMatch(type -> type.name().equals(value));
    }

    private static boolean isDuration(String value) {
        return reads(value, text -> {
            Duration duration = Duration.parse(text);
            if (duration.isZero() || duration.isNegative()) {
                throw new DateTimeParseException("not longer than none", text, 0);
            }
        });
    }

    private static boolean reads(String value, Consumer<String> reader) {
        try {
            reader.accept(value);
            return true;
        } catch (DateTimeParseException | Refused unreadable) {
            return false;
        }
    }
}
