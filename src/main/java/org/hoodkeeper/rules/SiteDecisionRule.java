package org.hoodkeeper.rules;

import java.time.Duration;
import java.time.format.DateTimeParseException;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/**
 * Something that the law leaves to the site.
 *
 * @param key for instance {@code year.reading}
 * @param form what a value looks like
 * @param choices the words that a choice allows; empty for every other form
 * @param byDefault what counts until the site has decided; none means unknown until then
 * @param mark how well the default is vouched for; none where there is no default
 * @param owner who answers for it
 * @param meaning what it decides, in English
 */
public record SiteDecisionRule(
        String key,
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
        /** One of the listed words. */
        CHOICE,
        /** Interface types, divided by commas, or {@code all} or {@code none}. */
        INTERFACES,
        /** Elapsed time by interface type, such as {@code HALF_MASK=PT2H,FULL_MASK=PT90M}, or {@code none}. */
        DURATION_BY_INTERFACE
    }

    public SiteDecisionRule {
        choices = List.copyOf(choices);
        if (byDefault != null) {
            check(key, form, choices, byDefault);
        }
    }

    /** Refuses a value that does not have the form, as {@code rules.decision.value.} and the form, with key, value and choices. */
    public void check(String value) {
        check(key, form, choices, value);
    }

    private static void check(String key, Form form, List<String> choices, String value) {
        boolean good =
                switch (form) {
                    case TERM -> reads(value, Term::of);
                    case TERM_OR_NONE -> value.equals(NONE) || reads(value, Term::of);
                    case DAYS -> DAYS.matcher(value).matches();
                    case DURATION -> isDuration(value);
                    case NUMBER -> NUMBER.matcher(value).matches();
                    case CHOICE -> choices.contains(value);
                    case INTERFACES ->
                        value.equals("all") || value.equals(NONE) || isList(value, SiteDecisionRule::isInterface);
                    case DURATION_BY_INTERFACE ->
                        value.equals(NONE) || isList(value, SiteDecisionRule::isDurationOfInterface);
                };
        if (!good) {
            throw new Refused("rules.decision.value." + form.name(), key, value, String.join(", ", choices));
        }
    }

    private static boolean isList(String value, Predicate<String> item) {
        List<String> items = Arrays.asList(value.split(",", -1));
        return items.stream().allMatch(item) && items.stream().distinct().count() == items.size();
    }

    private static boolean isInterface(String value) {
        return Arrays.stream(InterfaceType.values())
                .anyMatch(type -> type.name().equals(value));
    }

    private static boolean isDurationOfInterface(String value) {
        int equals = value.indexOf('=');
        return equals > 0 && isInterface(value.substring(0, equals)) && isDuration(value.substring(equals + 1));
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
