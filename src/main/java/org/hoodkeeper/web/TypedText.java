package org.hoodkeeper.web;

import java.beans.PropertyEditorSupport;
import java.lang.reflect.RecordComponent;
import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.propertyeditors.StringTrimmerEditor;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.ResolvableType;
import org.springframework.format.Formatter;
import org.springframework.format.FormatterRegistry;
import org.springframework.format.datetime.standard.DateTimeFormatterRegistrar;
import org.springframework.web.bind.WebDataBinder;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.InitBinder;
import org.springframework.web.context.request.WebRequest;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;

/** How typed text becomes values in every form: numbers by {@link DecimalText}, days and times as browsers send them. */
@Configuration(proxyBeanMethods = false)
class TypedText implements WebMvcConfigurer {

    @Override
    public void addFormatters(FormatterRegistry registry) {
        DateTimeFormatterRegistrar iso = new DateTimeFormatterRegistrar();
        iso.setUseIsoFormat(true);
        iso.registerFormatters(registry);
        registry.addFormatterForFieldType(LocalDate.class, new DayText());
        registry.addFormatterForFieldType(LocalDateTime.class, new MinuteText());
        registry.addFormatterForFieldType(LocalTime.class, new ClockText());
        registry.addFormatterForFieldType(BigDecimal.class, new DecimalText());
        registry.addFormatterForFieldType(Integer.class, new WholeText());
        registry.addFormatterForFieldType(int.class, new WholeText());
    }

    /**
     * Blank text means nothing was typed, spaces around it mean nothing, and the sign NUL, which no database text can
     * hold, is dropped. Fields of a form record whose name ends in "password" are taken as typed. Numbers are named here
     * once more: what a formatter refuses, the binder would otherwise hand to its own editors, which read 1.250 in every
     * language alike, and 1e999999999.
     */
    @ControllerAdvice
    static class Strip {

        @InitBinder
        void strip(WebDataBinder binder, WebRequest request) {
            binder.registerCustomEditor(String.class, new StringTrimmerEditor("\u0000", true));
            binder.addCustomFormatter(new DecimalText(), BigDecimal.class);
            binder.addCustomFormatter(new WholeText(), Integer.class, int.class);
            ResolvableType form = binder.getTargetType();
            if (form != null && form.toClass().isRecord()) {
                PageErrors.remember(binder.getObjectName(), form.toClass(), request);
                Stream.of(form.toClass().getRecordComponents())
                        .map(RecordComponent::getName)
                        .filter(name -> name.toLowerCase(Locale.ROOT).endsWith("password"))
                        .forEach(name -> binder.registerCustomEditor(String.class, name, new AsTyped()));
            }
        }
    }

    private static final class AsTyped extends PropertyEditorSupport {

        @Override
        public void setAsText(@Nullable String text) {
            setValue(text);
        }
    }

    /** Four digits of a year, as browsers send them: others are slips that neither a calendar nor the database holds. */
    private static void requireFourDigits(int year) {
        if (year < 1 || year > 9_999) {
            throw new DateTimeException("a year of four digits is asked for, not " + year);
        }
    }

    private static final class DayText implements Formatter<LocalDate> {

        @Override
        public LocalDate parse(String text, Locale locale) {
            LocalDate day = LocalDate.parse(text.strip());
            requireFourDigits(day.getYear());
            return day;
        }

        @Override
        public String print(LocalDate day, Locale locale) {
            return day.toString();
        }
    }

    /** 07:00, as browsers send and expect it. */
    private static final class ClockText implements Formatter<LocalTime> {

        @Override
        public LocalTime parse(String text, Locale locale) {
            return LocalTime.parse(text.strip());
        }

        @Override
        public String print(LocalTime time, Locale locale) {
            return time.toString();
        }
    }

    /** To the minute, as browsers send and expect it; seconds are read where a program sends them. */
    private static final class MinuteText implements Formatter<LocalDateTime> {

        @Override
        public LocalDateTime parse(String text, Locale locale) {
            LocalDateTime at = LocalDateTime.parse(text.strip());
            requireFourDigits(at.getYear());
            return at;
        }

        @Override
        public String print(LocalDateTime at, Locale locale) {
            return at.getSecond() == 0 && at.getNano() == 0
                    ? DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm", Locale.ROOT)
                            .format(at)
                    : at.toString();
        }
    }
}
