package org.hoodkeeper.web;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.validation.BindingResult;
import org.springframework.validation.FieldError;

/** Gathers what a page's forms refused, in the order of their fields: a reader mends a page from its top. */
final class PageErrors {

    private PageErrors() {}

    static List<PageError> of(Map<String, ?> model, MessageSource messages, Locale locale) {
        return model.values().stream()
                .filter(BindingResult.class::isInstance)
                .map(BindingResult.class::cast)
                .flatMap(form -> of(form, messages, locale))
                .toList();
    }

    private static Stream<PageError> of(BindingResult form, MessageSource messages, Locale locale) {
        Map<String, PageError> firstOfEach = new LinkedHashMap<>();
        Stream.concat(fieldsInOrder(form), form.getFieldErrors().stream())
                .forEach(error -> firstOfEach.computeIfAbsent(
                        error.getField(),
                        field -> new PageError(field, label(error, messages, locale), say(error, messages, locale))));
        return Stream.concat(
                form.getGlobalErrors().stream()
                        .map(error -> new PageError("", null, messages.getMessage(error, locale))),
                firstOfEach.values().stream());
    }

    private static String say(FieldError error, MessageSource messages, Locale locale) {
        return messages.getMessage(error, locale);
    }

    private static @Nullable String label(FieldError error, MessageSource messages, Locale locale) {
        return messages.getMessage(error.getObjectName() + "." + error.getField(), null, null, locale);
    }

    /** Form records list their components in the order of the page; other forms keep the order of refusal. */
    private static Stream<FieldError> fieldsInOrder(BindingResult form) {
        Object target = form.getTarget();
        if (target == null || !target.getClass().isRecord()) {
            return Stream.empty();
        }
        return Stream.of(target.getClass().getRecordComponents())
                .flatMap(component -> form.getFieldErrors(component.getName()).stream());
    }
}
