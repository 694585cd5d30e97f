package org.hoodkeeper.web.store;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.hoodkeeper.web.sheet.Timed;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Puts typed answers into words for the check page. What was left empty is left out. */
@Component
class Answers {

    private final Words words;
    private final Show show;
    private final Desk desk;

    Answers(Words words, Show show, Desk desk) {
        this.words = words;
        this.show = show;
        this.desk = desk;
    }

    /** @param form the form's name, first part of its message keys */
    Lines of(String form) {
        return new Lines(form);
    }

    /** Collects the lines of one page. */
    final class Lines {

        private final String form;
        private final List<Line> lines = new ArrayList<>();

        private Lines(String form) {
            this.form = form;
        }

        Lines text(String field, @Nullable String value) {
            if (value != null && !value.isBlank()) {
                lines.add(new Line(form + "." + field, value, null));
            }
            return this;
        }

        Lines said(String field, String code, @Nullable Object... arguments) {
            return text(field, words.say(code, arguments));
        }

        /** What decides whether the set may be used afterwards. */
        Lines decides(String field, String tone, String code, @Nullable Object... arguments) {
            lines.add(new Line(form + "." + field, words.say(code, arguments), tone));
            return this;
        }

        /** An answer to a question whose words stand elsewhere. @param key message key of the question */
        Lines answered(String key, String tone, String code, @Nullable Object... arguments) {
            lines.add(new Line(key, words.say(code, arguments), tone));
            return this;
        }

        /** A choice: its words stand under {@code form.field.CONSTANT}. */
        Lines choice(String field, @Nullable Enum<?> value) {
            return value == null ? this : said(field, form + "." + field + "." + value.name());
        }

        Lines figure(String field, @Nullable BigDecimal value, String unit) {
            if (value == null) {
                return this;
            }
            return text(field, unit.isEmpty() ? show.figure(value) : show.figure(value, unit));
        }

        Lines span(String field, @Nullable Duration value) {
            return value == null ? this : text(field, show.span(value));
        }

        Lines day(String field, @Nullable LocalDate value) {
            return value == null ? this : text(field, show.day(value));
        }

        List<Line> at(Timed timed, Visit visit) {
            String when = desk.when(timed, visit.zone());
            lines.add(new Line("store.at", when == null ? words.say("store.at.now") : when, null));
            return List.copyOf(lines);
        }

        List<Line> all() {
            return List.copyOf(lines);
        }
    }
}
