package org.hoodkeeper.web.record;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.hoodkeeper.access.Visit;
import org.hoodkeeper.exchange.ColumnLine;
import org.hoodkeeper.exchange.Rewriting;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.ledger.History;
import org.hoodkeeper.web.Choice;
import org.hoodkeeper.web.Show;
import org.hoodkeeper.web.Words;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/** The cells of a record, as fields to type over and as answers to read, in the reader's words. */
@Component
class Cells {

    private static final String NOTE = "note";
    private static final String FREE_TEXT = "exchange.form.text";
    private static final String FORM = "exchange.form.";
    private static final Set<String> TIMES = Set.of(FORM + "moment", FORM + "instant");
    private static final Pattern SNAKE = Pattern.compile("_([a-z])");

    /** How the messages of the forms on exposure begin. */
    private static final Map<Kind, String> FORMS = Map.of(
            Kind.EXPOSURE_RESULT, "exposure",
            Kind.LIMIT, "limit",
            Kind.TASK_BASIS, "basis",
            Kind.MEASURED_CONDITION, "condition");

    private final Rewriting rewriting;
    private final Words words;
    private final MessageSource messages;
    private final Show show;

    Cells(Rewriting rewriting, Words words, MessageSource messages, Show show) {
        this.show = show;
        this.rewriting = rewriting;
        this.words = words;
        this.messages = messages;
    }

    /**
     * One field of the form.
     *
     * @param id also the name of its parameter
     * @param labelKey message key of what it means
     * @param hint how it is written; none where it is picked
     * @param stands what the record says now
     * @param error why it was not taken; none when it was
     * @param other what somebody else had typed here, where that differs
     */
    public record Field(
            String id,
            String labelKey,
            @Nullable String hint,
            String value,
            String stands,
            List<Choice> options,
            boolean isLong,
            boolean isRequired,
            @Nullable String error,
            @Nullable String other) {

        Field refused(String why) {
            return new Field(id, labelKey, hint, value, stands, options, isLong, isRequired, why, other);
        }

        Field typedBefore(String text) {
            return new Field(
                    id,
                    labelKey,
                    hint,
                    value,
                    stands,
                    options,
                    isLong,
                    isRequired,
                    error,
                    text.equals(value) ? null : text);
        }

        public boolean isChanged() {
            return !value.strip().equals(stands);
        }
    }

    /** One answer to read. @param key message key of what it means */
    public record Shown(String key, String value) {}

    /** What the record says, without what it leaves empty and what is not for this reader. */
    List<Shown> shown(Visit visit, History.Version version) {
        return rewriting.cells(visit.viewer().site(), version).stream()
                .filter(cell -> !cell.text().isEmpty())
                .filter(cell -> !cell.column().name().equals(NOTE) || Sight.ofNote(visit.viewer(), version))
                .map(cell -> new Shown(labelKey(version.kind(), cell.column()), said(cell, cell.text())))
                .toList();
    }

    /** @param typed by the fields' ids; none to begin with what the record says */
    List<Field> fields(Visit visit, History.Version version, @Nullable Map<String, String> typed) {
        return rewriting.cells(visit.viewer().site(), version).stream()
                .map(cell -> field(version.kind(), cell, typed))
                .toList();
    }

    Rewriting.Read read(Visit visit, History.Version version, Map<String, String> typed) {
        Map<String, String> cells = new HashMap<>();
        typed.forEach((id, text) -> cells.put(id.substring(id.indexOf('-') + 1), text));
        return rewriting.read(visit.viewer().site(), version, cells);
    }

    /** What the door refused beside the field that its code names, {@code exposure.unit.differs} the unit. */
    List<Field> refused(List<Field> fields, Refused refused) {
        List<String> parts = List.of(refused.code().split("\\."));
        return fields.stream()
                .map(field -> parts.contains(property(field.id().substring(id("").length())))
                        ? field.refused(words.refusal(refused))
                        : field)
                .toList();
    }

    List<Field> refused(List<Field> fields, List<Rewriting.Wrong> wrong) {
        List<Field> shown = new ArrayList<>();
        for (Field field : fields) {
            shown.add(wrong.stream()
                    .filter(one -> field.id().equals(id(one.column())))
                    .findFirst()
                    .map(one -> field.refused(words.refusal(one.why())))
                    .orElse(field));
        }
        return shown;
    }

    /** The answers of a form in words, what changes with what stood before it. */
    List<Shown> changes(List<Field> fields) {
        return fields.stream()
                .filter(field -> !field.value().isBlank() || field.isChanged())
                .map(field -> new Shown(
                        field.labelKey(),
                        field.isChanged()
                                ? words.say(
                                        "correction.becomes", named(field, field.stands()), named(field, field.value()))
                                : named(field, field.value())))
                .toList();
    }

    private String named(Field field, String value) {
        if (value.isBlank()) {
            return words.say("correction.empty");
        }
        return field.options().stream()
                .filter(option -> option.value().equals(value))
                .findFirst()
                .map(option -> option.key() == null ? value : words.say(option.key()))
                .orElse(value);
    }

    static String id(String column) {
        return "cell-" + column;
    }

    private Field field(Kind kind, Rewriting.Cell cell, @Nullable Map<String, String> typed) {
        String id = id(cell.column().name());
        String text = typed == null ? cell.text() : typed.getOrDefault(id, "");
        List<Choice> options = options(cell);
        return new Field(
                id,
                labelKey(kind, cell.column()),
                options.isEmpty() ? hint(cell.column()) : null,
                text,
                cell.text(),
                options,
                cell.isLong(),
                cell.column().isRequired(),
                null,
                null);
    }

    /** How it is written, where that does not go without saying. */
    private @Nullable String hint(ColumnLine column) {
        if (column.formKey().equals(FREE_TEXT) && column.choices().isEmpty()) {
            return null;
        }
        String key = column.formKey();
        String form = words.say(TIMES.contains(key) ? "correction.form." + key.substring(FORM.length()) : key);
        return column.choices().isEmpty() ? form : form + ": " + String.join(", ", column.choices());
    }

    private List<Choice> options(Rewriting.Cell cell) {
        if (cell.isYesNo()) {
            return List.of(Choice.said("yes", "sheet.YES"), Choice.said("no", "sheet.NO"));
        }
        List<Choice> options = new ArrayList<>();
        for (int i = 0; i < cell.choices().size(); i++) {
            String key = Words.kindKey(cell.choices().get(i));
            String word = cell.column().choices().get(i);
            options.add(has(key) ? Choice.said(word, key) : Choice.named(word, word));
        }
        return options;
    }

    private String said(Rewriting.Cell cell, String text) {
        if (cell.moment() != null) {
            return show.instant(cell.moment());
        }
        return options(cell).stream()
                .filter(option -> option.value().equals(text))
                .findFirst()
                .map(option -> option.key() == null ? text : words.say(option.key()))
                .orElse(text);
    }

    /** As the form asked that recorded it, where there is one; else what the column of a file means. */
    private String labelKey(Kind kind, ColumnLine column) {
        return Stream.concat(
                        Stream.ofNullable(FORMS.get(kind)).map(form -> form + "." + property(column.name())),
                        Stream.concat(column.meaningKeys().stream(), Stream.of("correction.cell")))
                .filter(this::has)
                .findFirst()
                .orElseThrow();
    }

    /** {@code below_detection} is {@code belowDetection} in a form. */
    private static String property(String column) {
        return SNAKE.matcher(column).replaceAll(found -> found.group(1).toUpperCase(Locale.ROOT));
    }

    private boolean has(String key) {
        Locale locale = LocaleContextHolder.getLocale();
        String found = messages.getMessage(key, null, "", locale);
        return found != null && !found.isEmpty();
    }
}
