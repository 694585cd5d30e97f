package org.hoodkeeper.web;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.context.NoSuchMessageException;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/**
 * Turns a code and its arguments into a sentence in the reader's language. Arguments of time, figures and enum
 * constants become words first; an enum constant's own words are found under {@code kinds.<EnumName>.<CONSTANT>}.
 */
@Component("words")
public class Words {

    private final MessageSource messages;
    private final Show show;

    Words(MessageSource messages, Show show) {
        this.messages = messages;
        this.show = show;
    }

    /** @throws NoSuchMessageException when no bundle has the code */
    public String say(String code, @Nullable Object... arguments) {
        return messages.getMessage(code, shown(arguments), LocaleContextHolder.getLocale());
    }

    /**
     * A sentence about a number of things, which is its argument {0}: of one thing under {@code code.one}, since a language
     * bends more than the noun.
     */
    public String counted(String code, int count, @Nullable Object... more) {
        Object[] arguments = Stream.concat(Stream.of(count), Stream.of(more)).toArray();
        return say(count == 1 ? code + ".one" : code, arguments);
    }

    /**
     * The sentence of a refusal; every code a refusal carries has its words under {@code refused.<code>}. A code put
     * together at run time that has none is named as it is: still a refusal, not a fault.
     */
    public String refusal(Refused refused) {
        String sentence = messages.getMessage(
                "refused." + refused.code(), shown(refused.arguments()), null, LocaleContextHolder.getLocale());
        return sentence != null ? sentence : say("refused.unsaid", refused.code());
    }

    private Object[] shown(@Nullable Object[] arguments) {
        return Stream.of(arguments).map(this::shown).toArray();
    }

    private String shown(@Nullable Object argument) {
        if (argument == null) {
            return messages.getMessage("show.nothing", null, LocaleContextHolder.getLocale());
        }
        if (argument instanceof Instant at) {
            return show.instant(at);
        }
        if (argument instanceof LocalDate day) {
            return show.day(day);
        }
        if (argument instanceof LocalDateTime at) {
            return show.dayTime(at);
        }
        if (argument instanceof LocalTime time) {
            return show.time(time);
        }
        if (argument instanceof ZoneOffset offset) {
            return show.offset(offset);
        }
        if (argument instanceof Duration span) {
            return show.span(span);
        }
        if (argument instanceof BigDecimal figure) {
            return show.figure(figure);
        }
        if (argument instanceof Integer || argument instanceof Long) {
            return show.count(((Number) argument).longValue());
        }
        if (argument instanceof Enum<?> constant) {
            return messages.getMessage(kindKey(constant), null, LocaleContextHolder.getLocale());
        }
        if (argument instanceof Collection<?> several) {
            return several.stream().map(this::shown).collect(Collectors.joining(", "));
        }
        return argument.toString();
    }

    public static String kindKey(Enum<?> constant) {
        Class<?> type = constant.getDeclaringClass();
        Class<?> around = type.getEnclosingClass();
        String name = around == null ? type.getSimpleName() : around.getSimpleName() + type.getSimpleName();
        return "kinds." + name + "." + constant.name();
    }
}
