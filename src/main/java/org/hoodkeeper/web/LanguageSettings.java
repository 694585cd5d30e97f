package org.hoodkeeper.web;

import java.time.Duration;
import java.util.Collections;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.Ordered;
import org.springframework.web.servlet.LocaleResolver;
import org.springframework.web.servlet.config.annotation.InterceptorRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;
import org.springframework.web.servlet.i18n.CookieLocaleResolver;
import org.springframework.web.servlet.i18n.LocaleChangeInterceptor;

/**
 * Chooses the language of a page: the reader's saved choice, else the first language of the browser that the pages are
 * written in, else English. A page asked for with {@code ?lang=es} saves the choice for a year.
 */
@Configuration(proxyBeanMethods = false)
class LanguageSettings implements WebMvcConfigurer {

    static final String PARAMETER = "lang";
    private static final String COOKIE = "hoodkeeper-language";

    @Bean
    LocaleResolver localeResolver() {
        CookieLocaleResolver resolver = new CookieLocaleResolver(COOKIE) {
            @Override
            protected @Nullable Locale parseLocaleValue(String text) {
                return Languages.asked(text).orElse(null);
            }
        };
        resolver.setDefaultLocaleFunction(request -> Languages.asked(Collections.list(request.getLocales())));
        resolver.setCookieMaxAge(Duration.ofDays(365));
        resolver.setCookieHttpOnly(true);
        resolver.setCookieSameSite("Lax");
        resolver.setRejectInvalidCookies(false);
        return resolver;
    }

    @Override
    public void addInterceptors(InterceptorRegistry registry) {
        LocaleChangeInterceptor change = new LocaleChangeInterceptor() {
            @Override
            protected @Nullable Locale parseLocaleValue(String text) {
                return Languages.asked(text).orElseThrow(() -> new IllegalArgumentException(text));
            }
        };
        change.setParamName(PARAMETER);
        change.setIgnoreInvalidLocale(true);
        registry.addInterceptor(change).order(Ordered.HIGHEST_PRECEDENCE);
    }
}
