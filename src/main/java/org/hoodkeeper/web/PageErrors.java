package org.hoodkeeper.web;

import jakarta.servlet.http.HttpServletRequest;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.validation.BindingResult;
import org.springframework.validation.FieldError;
import org.springframework.web.context.request.RequestAttributes;
import org.springframework.web.context.request.WebRequest;
import org.springframework.web.servlet.support.RequestContextUtils;

/** Gathers what a page's forms refused, in the order of their fields: a reader mends a page from its top. */
final class PageErrors {

    private static final String TYPE = PageErrors.class.getName() + ".";

    private PageErrors() {}

    /** Keeps the type of a form, which is otherwise forgotten when the form cannot be made of what was typed. */
    static void remember(String form, Class<?> type, WebRequest request) {
        request.setAttribute(TYPE + form, type, RequestAttributes.SCOPE_REQUEST);
    }

    static List<PageError> of(Map<String, ?> model, HttpServletRequest request, MessageSource messages) {
        Locale locale = RequestContextUtils.getLocale(request);
        return model.values().stream()
                .filter(BindingResult.class::isInstance)
                .map(BindingResult.class::cast)
                .flatMap(form -> of(form, fieldsInOrder(form, request), messages, locale))
                .toList();
    }

    private static Stream<PageError> of(
            BindingResult form, Stream<FieldError> inOrder, MessageSource messages, Locale locale) {
        Map<String, PageError> firstOfEach = new LinkedHashMap<>();
        Stream.concat(inOrder, form.getFieldErrors().stream())
                .forEach(error -> firstOfEach.computeIfAbsent(
                        error.getField(),
                        field -> error(field, label(error, messages, locale), say(error, messages, locale))));
        return Stream.concat(
                form.getGlobalErrors().stream()
                        .map(error -> new PageError("", null, messages.getMessage(error, locale))),
                firstOfEach.values().stream());
    }

    /** A sentence that begins with the field's own name needs it no second time. */
    private static PageError error(String field, @Nullable String label, String message) {
        return new PageError(field, label != null && message.startsWith(label) ? null : label, message);
    }

    private static String say(FieldError error, MessageSource messages, Locale locale) {
        return messages.getMessage(error, locale);
    }

    private static @Nullable String label(FieldError error, MessageSource messages, Locale locale) {
        return messages.getMessage(error.getObjectName() + "." + error.getField(), null, null, locale);
    }

    /** Form records list their components in the order of the page; other forms keep the order of refusal. */
    private static Stream<FieldError> fieldsInOrder(BindingResult form, HttpServletRequest request) {
        return request.getAttribute(TYPE + form.getObjectName()) instanceof Class<?> type
                ? Stream.of(type.getRecordComponents())
                        .flatMap(component -> form.getFieldErrors(component.getName()).stream())
                : Stream.empty();
    }
}
