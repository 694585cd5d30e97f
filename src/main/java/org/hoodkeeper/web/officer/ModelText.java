package org.hoodkeeper.web.officer;

import java.math.BigDecimal;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.web.sheet.Lists;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.annotation.Qualifier;
import org.springframework.core.convert.ConversionService;
import org.springframework.stereotype.Component;

/** The lists of a model as text in one field, one thing on each line, and back. */
@Component
class ModelText {

    private final ConversionService typed;

    ModelText(@Qualifier("mvcConversionService") ConversionService typed) {
        this.typed = typed;
    }

    static Map<String, String> classes(@Nullable String text) {
        Map<String, String> classes = new TreeMap<>();
        if (text == null) {
            return classes;
        }
        text.lines().filter(line -> !line.isBlank()).forEach(line -> {
            String[] parts = line.split("=", 2);
            if (parts.length < 2 || parts[0].isBlank() || parts[1].isBlank()) {
                throw new Refused("model.classes.unreadable", line.strip());
            }
            classes.put(parts[0].strip(), parts[1].strip());
        });
        return classes;
    }

    static List<ModelData.Product> products(Lists lists, @Nullable String text) {
        return lists.lines(text, 4, "model.products.unreadable", parts -> {
            BigDecimal strength = parts.figure(1);
            Integer seconds = parts.whole(3);
            if (strength == null || seconds == null) {
                throw new Refused("model.products.unreadable", parts.line());
            }
            return new ModelData.Product(parts.text(0), strength, parts.text(2), seconds);
        });
    }

    static List<ModelData.Slot> slots(Lists lists, @Nullable String text) {
        return lists.lines(
                text,
                3,
                "model.slots.unreadable",
                parts -> new ModelData.Slot(parts.text(0), new HashSet<>(Lists.words(parts.text(1))), parts.whole(2)));
    }

    String classes(ModelData data) {
        return lines(data.classes().entrySet().stream().map(one -> one.getKey() + " = " + one.getValue()));
    }

    String products(ModelData data) {
        return lines(data.products().stream()
                .map(one -> String.join(
                        "; ", one.code(), figure(one.strength()), one.basis(), String.valueOf(one.wetSeconds()))));
    }

    String slots(ModelData data) {
        return lines(data.slots().stream()
                .map(one -> String.join(
                        "; ",
                        one.name(),
                        String.join(" ", one.parts()),
                        one.lifeMonths() == null ? "" : one.lifeMonths().toString())));
    }

    /** As it would be typed in the reader's language. */
    private String figure(BigDecimal figure) {
        return Objects.requireNonNull(typed.convert(figure, String.class));
    }

    private static String lines(Stream<String> lines) {
        return String.join("\n", lines.toList());
    }
}
