package org.hoodkeeper.web;

import com.fasterxml.uuid.Generators;
import com.fasterxml.uuid.NoArgGenerator;
import jakarta.servlet.http.HttpServletRequest;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;
import org.springframework.web.servlet.support.RequestContextUtils;

/**
 * Gives a request what the shared fragments read: {@code chrome}, {@code formKey} and {@code pageErrors}. Request
 * attributes rather than model attributes, so that error pages and pages without a controller have them too.
 */
@Component
class Surroundings {

    static final String CHROME = "chrome";
    static final String FORM_KEY = "formKey";
    static final String PAGE_ERRORS = "pageErrors";

    private static final Pattern KEY = Pattern.compile("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}");

    private final Here here;
    private final MessageSource messages;
    private final @Nullable String banner;
    private final NoArgGenerator keys = Generators.timeBasedEpochRandomGenerator();

    Surroundings(
            Here here,
            MessageSource messages,
            @Value("${hoodkeeper.clock:}") String rehearsalClock,
            @Value("${hoodkeeper.demo:false}") boolean demo) {
        this.here = here;
        this.messages = messages;
        this.banner = !rehearsalClock.isBlank() ? "chrome.rehearsal" : demo ? "chrome.demo" : null;
    }

    void putAround(HttpServletRequest request) {
        var languages = Languages.others(RequestContextUtils.getLocale(request), request.getQueryString());
        SignedIn reader = here.reader(request).orElse(null);
        request.setAttribute(CHROME, Chrome.of(reader, path(request), languages, banner));
        request.setAttribute(FORM_KEY, formKey(request));
        request.setAttribute(PAGE_ERRORS, List.of());
    }

    void putErrors(HttpServletRequest request, Map<String, ?> model) {
        request.setAttribute(PAGE_ERRORS, PageErrors.of(model, request, messages));
    }

    private static String path(HttpServletRequest request) {
        return request.getRequestURI().substring(request.getContextPath().length());
    }

    /** A form shown again keeps its key, since a refused form leaves it unused. */
    private String formKey(HttpServletRequest request) {
        String sent = request.getMethod().equals("POST") ? request.getParameter(FORM_KEY) : null;
        return sent != null && KEY.matcher(sent).matches()
                ? UUID.fromString(sent).toString()
                : keys.generate().toString();
    }
}
