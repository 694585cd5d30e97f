package org.hoodkeeper.web;

import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * One answer a person can pick. Its words are either a message (key) or a name as stored (text), never both.
 *
 * @param hint message key of a line under the answer, null for none
 */
public record Choice(
        String value,
        @Nullable String key,
        @Nullable String text,
        @Nullable String hint) {

    public static Choice said(String value, String key) {
        return new Choice(value, key, null, null);
    }

    public static Choice said(String value, String key, String hint) {
        return new Choice(value, key, null, hint);
    }

    public static Choice named(String value, String text) {
        return new Choice(value, null, text, null);
    }

    /** What was chosen of several; a value that says nothing is no choice. */
    public static <T> List<T> made(@Nullable List<@Nullable T> several) {
        return several == null
                ? List.of()
                : several.stream()
                        .filter(Objects::nonNull)
                        .map(Objects::requireNonNull)
                        .toList();
    }

    /** All constants in their order; the message keys are the prefix and the constant's name. */
    public static List<Choice> each(String keyPrefix, Enum<?>... constants) {
        return Stream.of(constants)
                .map(constant -> said(constant.name(), keyPrefix + constant.name()))
                .toList();
    }
}
