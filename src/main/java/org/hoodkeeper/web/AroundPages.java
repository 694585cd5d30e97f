package org.hoodkeeper.web;

import com.fasterxml.uuid.Generators;
import com.fasterxml.uuid.NoArgGenerator;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Locale;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.context.MessageSource;
import org.springframework.context.annotation.Configuration;
import org.springframework.web.servlet.HandlerInterceptor;
import org.springframework.web.servlet.ModelAndView;
import org.springframework.web.servlet.config.annotation.InterceptorRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;
import org.springframework.web.servlet.support.RequestContextUtils;

/**
 * Gives every page what the shared fragments read: {@code chrome}, {@code formKey} and {@code pageErrors}. Request
 * attributes rather than model attributes, so that error pages and pages without a controller have them too.
 */
@Configuration(proxyBeanMethods = false)
class AroundPages implements WebMvcConfigurer, HandlerInterceptor {

    static final String CHROME = "chrome";
    static final String FORM_KEY = "formKey";
    static final String PAGE_ERRORS = "pageErrors";

    private final ObjectProvider<Caller> caller;
    private final MessageSource messages;
    private final @Nullable String banner;
    private final NoArgGenerator keys = Generators.timeBasedEpochRandomGenerator();

    AroundPages(
            ObjectProvider<Caller> caller,
            MessageSource messages,
            @Value("${hoodkeeper.clock:}") String rehearsalClock,
            @Value("${hoodkeeper.demo:false}") boolean demo) {
        this.caller = caller;
        this.messages = messages;
        this.banner = !rehearsalClock.isBlank() ? "chrome.rehearsal" : demo ? "chrome.demo" : null;
    }

    @Override
    public void addInterceptors(InterceptorRegistry registry) {
        registry.addInterceptor(this);
    }

    @Override
    public boolean preHandle(HttpServletRequest request, HttpServletResponse response, Object handler) {
        request.setAttribute(FORM_KEY, formKey(request));
        return true;
    }

    @Override
    public void postHandle(
            HttpServletRequest request, HttpServletResponse response, Object handler, @Nullable ModelAndView page) {
        if (page == null || !page.hasView()) {
            return;
        }
        Locale locale = RequestContextUtils.getLocale(request);
        request.setAttribute(CHROME, chrome(request, locale));
        request.setAttribute(PAGE_ERRORS, PageErrors.of(page.getModel(), messages, locale));
    }

    private Chrome chrome(HttpServletRequest request, Locale locale) {
        var languages = Languages.others(locale, request.getQueryString());
        return caller.stream()
                .flatMap(who -> who.of(request).stream())
                .findFirst()
                .map(reader -> Chrome.of(reader, path(request), languages, banner))
                .orElseGet(() -> Chrome.ofNobody(languages, banner));
    }

    private static String path(HttpServletRequest request) {
        return request.getRequestURI().substring(request.getContextPath().length());
    }

    /** A form shown again keeps its key, since a refused form leaves it unused. */
    private String formKey(HttpServletRequest request) {
        String sent = request.getMethod().equals("POST") ? request.getParameter(FORM_KEY) : null;
        if (sent != null && sent.matches("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}")) {
            return UUID.fromString(sent).toString();
        }
        return keys.generate().toString();
    }
}
