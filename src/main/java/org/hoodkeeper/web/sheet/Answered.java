package org.hoodkeeper.web.sheet;

import java.lang.reflect.RecordComponent;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.BeanUtils;
import org.springframework.context.MessageSource;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;
import org.springframework.util.ReflectionUtils;

/**
 * Puts the answers of a form record into words, in the order of its fields. A choice is said by {@code form.field.CONSTANT}, or
 * as its kind where the form has no words of its own; a figure takes the unit of {@code form.field.unit}. What was left empty
 * is left out.
 */
@Component
class Answered {

    private static final String AT = "at";
    private static final String OCCURRENCE = "Occurrence";

    private final MessageSource messages;
    private final Words words;
    private final Show show;

    Answered(MessageSource messages, Words words, Show show) {
        this.messages = messages;
        this.words = words;
        this.show = show;
    }

    List<Line> lines(String form, Record answers, ZoneId zone, Instant now) {
        List<Line> lines = new ArrayList<>();
        for (RecordComponent field : answers.getClass().getRecordComponents()) {
            String key = form + "." + field.getName();
            Object value = value(field, answers);
            if (field.getName().equals(AT) && answers instanceof Timed timed) {
                lines.add(new Line(
                        key, value == null ? words.say("sheet.now") : show.instant(timed.instant(zone, now), zone)));
            } else if (value != null && !field.getName().endsWith(OCCURRENCE)) {
                String said = said(key, value);
                if (!said.isBlank()) {
                    lines.add(new Line(key, said));
                }
            }
        }
        return lines;
    }

    private static @Nullable Object value(RecordComponent field, Record answers) {
        ReflectionUtils.makeAccessible(field.getAccessor());
        return ReflectionUtils.invokeMethod(field.getAccessor(), answers);
    }

    private String said(String key, Object value) {
        if (value instanceof Enum<?> choice) {
            return said(key, choice);
        }
        if (value instanceof Collection<?> several) {
            return several.stream().map(one -> said(key, one)).collect(Collectors.joining(", "));
        }
        if (value instanceof BigDecimal figure) {
            return withUnit(key, show.figure(figure));
        }
        if (value instanceof Integer count) {
            return withUnit(key, show.count(count));
        }
        if (value instanceof LocalDate day) {
            return show.day(day);
        }
        if (!BeanUtils.isSimpleValueType(value.getClass())) {
            throw new IllegalArgumentException(key + " cannot be put into words: " + value.getClass());
        }
        return value.toString();
    }

    private String said(String key, Enum<?> choice) {
        return Stream.of(key + "." + choice.name(), "sheet." + choice.name())
                .map(this::own)
                .filter(found -> !found.isEmpty())
                .findFirst()
                .orElseGet(() -> words.say(Words.kindKey(choice)));
    }

    private String withUnit(String key, String figure) {
        String unit = own(key + ".unit");
        return unit.isEmpty() ? figure : figure + "\u202f" + unit;
    }

    private String own(String key) {
        String found = messages.getMessage(key, null, "", LocaleContextHolder.getLocale());
        return found == null ? "" : found;
    }
}
