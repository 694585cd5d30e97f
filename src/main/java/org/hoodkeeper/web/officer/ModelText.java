package org.hoodkeeper.web.officer;

import java.math.BigDecimal;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.facts.ModelData;
import org.hoodkeeper.facts.PartCare;
import org.hoodkeeper.kernel.Refused;
import org.hoodkeeper.web.sheet.Lists;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.annotation.Qualifier;
import org.springframework.core.convert.ConversionService;
import org.springframework.stereotype.Component;

/** The lists of a model as text in one field, one thing on each line, and back. */
@Component
class ModelText {

    private static final String SLOTS = "model.slots.unreadable";

    /** In the place of the methods: it is pulled, and never washed. */
    private static final String NEVER = "never";

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
                7,
                SLOTS,
                parts -> new ModelData.Slot(
                        parts.text(0), new HashSet<>(Lists.words(parts.text(1))), parts.whole(2), care(parts)));
    }

    private static @Nullable PartCare care(Lists.Parts parts) {
        boolean nothing = parts.text(3).isEmpty()
                && parts.text(4).isEmpty()
                && parts.text(5).isEmpty()
                && parts.text(6).isEmpty();
        return nothing
                ? null
                : new PartCare(
                        parts.figure(3),
                        Lists.words(parts.text(4)).stream()
                                .map(one -> bears(one, parts.line()))
                                .toList(),
                        methods(parts.text(5), parts.line()),
                        parts.whole(6),
                        parts.text(5).equals(NEVER));
    }

    private static PartCare.Bears bears(String text, String line) {
        String[] sides = text.split(":", -1);
        if (sides.length > 2 || sides[0].isBlank() || (sides.length == 2 && !sides[1].matches("[0-9]{1,5}"))) {
            throw new Refused(SLOTS, line);
        }
        return new PartCare.Bears(sides[0], sides.length == 2 ? Integer.valueOf(sides[1]) : null);
    }

    private static Set<PartCare.Bath> methods(String text, String line) {
        if (text.equals(NEVER)) {
            return Set.of();
        }
        return Lists.words(text).stream()
                .map(word -> Stream.of(PartCare.Bath.values())
                        .filter(bath -> word(bath).equals(word))
                        .findFirst()
                        .orElseThrow(() -> new Refused(SLOTS, line)))
                .collect(Collectors.toSet());
    }

    private static String word(PartCare.Bath bath) {
        return bath.name().toLowerCase(Locale.ROOT).replace('_', '-');
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
                                one.lifeMonths() == null ? "" : one.lifeMonths().toString(),
                                one.care() == null ? "" : care(one.care()))
                        .replaceAll("(; )+$", "")));
    }

    private String care(PartCare care) {
        return String.join(
                "; ",
                care.maxCelsius() == null ? "" : figure(care.maxCelsius()),
                care.products().stream()
                        .map(one -> one.longest() == null ? one.code() : one.code() + ":" + one.longest())
                        .collect(Collectors.joining(" ")),
                care.neverWashed()
                        ? NEVER
                        : care.methods().stream().map(ModelText::word).collect(Collectors.joining(" ")),
                care.cycles() == null ? "" : care.cycles().toString());
    }

    /** As it would be typed in the reader's language. */
    private String figure(BigDecimal figure) {
        return Objects.requireNonNull(typed.convert(figure, String.class));
    }

    private static String lines(Stream<String> lines) {
        return String.join("\n", lines.toList());
    }
}
