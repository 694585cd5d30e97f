package org.hoodkeeper.web;

import java.math.BigDecimal;
import org.springframework.beans.propertyeditors.StringTrimmerEditor;
import org.springframework.context.annotation.Configuration;
import org.springframework.format.FormatterRegistry;
import org.springframework.format.datetime.standard.DateTimeFormatterRegistrar;
import org.springframework.web.bind.WebDataBinder;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.InitBinder;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;

/** How typed text becomes values in every form: numbers by {@link DecimalText}, days and times as browsers send them. */
@Configuration(proxyBeanMethods = false)
class TypedText implements WebMvcConfigurer {

    @Override
    public void addFormatters(FormatterRegistry registry) {
        DateTimeFormatterRegistrar iso = new DateTimeFormatterRegistrar();
        iso.setUseIsoFormat(true);
        iso.registerFormatters(registry);
        registry.addFormatterForFieldType(BigDecimal.class, new DecimalText());
        registry.addFormatterForFieldType(Integer.class, new WholeText());
        registry.addFormatterForFieldType(int.class, new WholeText());
    }

    /** Blank text means nothing was typed. */
    @ControllerAdvice
    static class Blank {

        @InitBinder
        void blankIsNothing(WebDataBinder binder) {
            binder.registerCustomEditor(String.class, new StringTrimmerEditor(true));
        }
    }
}
