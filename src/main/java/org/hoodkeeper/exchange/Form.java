package org.hoodkeeper.exchange;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Outcome;
import org.hoodkeeper.facts.PreUseCheck;
import org.hoodkeeper.facts.Variant;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/**
 * How the cells of a column are written, in both directions. What is read is a plain value (text, number, list, map) as the
 * ledger's JSON has it; {@link #write} gives the very text that {@link #read} takes.
 */
abstract class Form {

    private final String code;

    private Form(String code) {
        this.code = code;
    }

    /** Its words stand under {@code exchange.form.<code>}. */
    String code() {
        return code;
    }

    /** The words a cell may hold, where these are all it may hold. */
    List<String> choices() {
        return List.of();
    }

    /** The constants behind the choices, where a cell holds exactly one of them. */
    List<Enum<?>> constants() {
        return List.of();
    }

    /** Free text, which a spreadsheet could take for a formula. */
    boolean isText() {
        return false;
    }

    /**
     * @param text the cell, never empty
     * @throws Refused {@code exchange.…} when it is not written so
     */
    abstract Object read(String text, Names names);

    abstract String write(Object value, Names names);

    /** @param most longest text, characters */
    static Form text(int most) {
        return new Form("text") {
            @Override
            boolean isText() {
                return true;
            }

            @Override
            Object read(String text, Names names) {
                if (text.length() > most) {
                    throw new Refused("exchange.tooLong", text.length(), most);
                }
                return text;
            }

            @Override
            String write(Object value, Names names) {
                return value.toString();
            }
        };
    }

    /** A label or code as it is printed on things. */
    static final Form CODE = new Form("code") {
        private final Pattern form = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._-]{0,29}");

        @Override
        Object read(String text, Names names) {
            if (!form.matcher(text).matches()) {
                throw new Refused("exchange.code", text);
            }
            return text;
        }

        @Override
        String write(Object value, Names names) {
            return value.toString();
        }
    };

    /** The name of something that the site has. */
    static Form named(Names.Sort sort) {
        return new Form("named." + sort.name()) {
            @Override
            boolean isText() {
                return true;
            }

            @Override
            Object read(String text, Names names) {
                return names.id(sort, text);
            }

            @Override
            String write(Object value, Names names) {
                return names.name(sort, value instanceof UUID id ? id : UUID.fromString(value.toString()));
            }
        };
    }

    /** The code of a model that the site has, kept as its code. */
    static final Form MODEL_CODE = new Form("named.MODEL") {
        @Override
        boolean isText() {
            return true;
        }

        @Override
        Object read(String text, Names names) {
            names.id(Names.Sort.MODEL, text);
            return text;
        }

        @Override
        String write(Object value, Names names) {
            return value.toString();
        }
    };

    static final Form VARIANT = new Form("variant") {
        @Override
        boolean isText() {
            return true;
        }

        @Override
        Object read(String text, Names names) {
            Variant variant = Variant.of(text);
            names.id(Names.Sort.MODEL, variant.model());
            return variant.toString();
        }

        @Override
        String write(Object value, Names names) {
            return value.toString();
        }
    };

    /** A worker, set, task or supply: the sort, a colon, the name. */
    static final Form ABOUT = about(Names.Sort.WORKER, Names.Sort.SET, Names.Sort.TASK, Names.Sort.SUPPLY);

    /** A worker, set or task as in {@link #ABOUT}; an empty cell is the site itself. */
    static final Form ABOUT_OR_SITE = about(Names.Sort.WORKER, Names.Sort.SET, Names.Sort.TASK);

    private static Form about(Names.Sort... several) {
        return new Form("about") {
            private final List<Names.Sort> sorts = List.of(several);

            @Override
            boolean isText() {
                return true;
            }

            @Override
            Object read(String text, Names names) {
                int colon = text.indexOf(':');
                for (Names.Sort sort : sorts) {
                    if (colon > 0 && word(sort).equals(text.substring(0, colon))) {
                        return names.id(sort, text.substring(colon + 1).strip());
                    }
                }
                throw new Refused("exchange.about", text);
            }

            @Override
            String write(Object value, Names names) {
                for (Names.Sort sort : sorts) {
                    String name = names.nameOrNull(sort, (UUID) value);
                    if (name != null) {
                        return word(sort) + ":" + name;
                    }
                }
                // nothing else that a record can be about: the site itself
                return "";
            }
        };
    }

    /** An instant with its offset, or a day. Read and written where the site's zone is known: {@link Moments}. */
    static final Form MOMENT = new Form("moment") {
        @Override
        Object read(String text, Names names) {
            return text;
        }

        @Override
        String write(Object value, Names names) {
            return value.toString();
        }
    };

    /** An instant with its offset: a day alone says too little. */
    static final Form INSTANT = new Form("instant") {
        @Override
        Object read(String text, Names names) {
            return text;
        }

        @Override
        String write(Object value, Names names) {
            return value.toString();
        }
    };

    static final Form DAY = new Form("day") {
        @Override
        Object read(String text, Names names) {
            return day(text).toString();
        }

        @Override
        String write(Object value, Names names) {
            return value.toString();
        }
    };

    static LocalDate day(String text) {
        try {
            if (text.length() == 10) {
                return LocalDate.parse(text);
            }
        } catch (DateTimeParseException wrong) {
            // refused below, with the same words as any other text
        }
        throw new Refused("exchange.day", text);
    }

    static final Form DECIMAL = new Form("decimal") {
        @Override
        Object read(String text, Names names) {
            return decimal(text);
        }

        @Override
        String write(Object value, Names names) {
            return plain(value);
        }
    };

    static final Form WHOLE = new Form("whole") {
        @Override
        Object read(String text, Names names) {
            if (!text.matches("[0-9]{1,9}")) {
                throw new Refused("exchange.whole", text);
            }
            return Integer.valueOf(text);
        }

        @Override
        String write(Object value, Names names) {
            return value.toString();
        }
    };

    static final Form YES_NO = new Form("choice") {
        @Override
        List<String> choices() {
            return List.of("yes", "no");
        }

        @Override
        Object read(String text, Names names) {
            return switch (text.toLowerCase(Locale.ROOT)) {
                case "yes" -> true;
                case "no" -> false;
                default -> throw new Refused("exchange.choice", text, String.join(", ", choices()));
            };
        }

        @Override
        String write(Object value, Names names) {
            return Boolean.TRUE.equals(value) ? "yes" : "no";
        }
    };

    static Form choice(Enum<?>... constants) {
        return new Form("choice") {
            @Override
            List<Enum<?>> constants() {
                return List.of(constants);
            }

            @Override
            List<String> choices() {
                return Stream.of(constants).map(constant -> word(constant)).toList();
            }

            @Override
            Object read(String text, Names names) {
                return constant(text, constants).name();
            }

            @Override
            String write(Object value, Names names) {
                return word(value.toString());
            }
        };
    }

    /** Several of a list, parted by semicolons. */
    static Form several(Enum<?>... constants) {
        return new Form("several") {
            @Override
            List<String> choices() {
                return Stream.of(constants).map(constant -> word(constant)).toList();
            }

            @Override
            Object read(String text, Names names) {
                return parts(text).stream()
                        .map(part -> constant(part, constants).name())
                        .distinct()
                        .toList();
            }

            @Override
            String write(Object value, Names names) {
                return list(value).stream()
                        .map(Object::toString)
                        .map(Form::word)
                        .collect(Collectors.joining("; "));
            }
        };
    }

    /** Several short texts, parted by semicolons. */
    static final Form TEXTS = new Form("texts") {
        @Override
        boolean isText() {
            return true;
        }

        @Override
        Object read(String text, Names names) {
            return parts(text);
        }

        @Override
        String write(Object value, Names names) {
            return list(value).stream().map(Object::toString).collect(Collectors.joining("; "));
        }
    };

    /** Several figures in their order, parted by semicolons. */
    static final Form FIGURES = new Form("figures") {
        @Override
        Object read(String text, Names names) {
            return parts(text).stream().map(Form::decimal).toList();
        }

        @Override
        String write(Object value, Names names) {
            return list(value).stream().map(Form::plain).collect(Collectors.joining("; "));
        }
    };

    /** {@code uk=TH2; us-federal=powered helmet/hood}. */
    static final Form CLASSES = new Form("classes") {
        @Override
        boolean isText() {
            return true;
        }

        @Override
        Object read(String text, Names names) {
            Map<String, Object> classes = new TreeMap<>();
            for (String part : parts(text)) {
                String[] sides = sides(part, '=');
                if (sides == null || classes.put(sides[0], sides[1]) != null) {
                    throw new Refused("exchange.classes", part);
                }
            }
            return classes;
        }

        @Override
        String write(Object value, Names names) {
            return new TreeMap<>((Map<?, ?>) value)
                    .entrySet().stream()
                            .map(one -> one.getKey() + "=" + one.getValue())
                            .collect(Collectors.joining("; "));
        }
    };

    /** {@code silica=1.42 mg/m3; toluene=35 ppm}. */
    static final Form EXPOSURES = new Form("exposures") {
        private final Pattern form = Pattern.compile("([0-9]+(?:\\.[0-9]+)?) +(\\S.*)");

        @Override
        boolean isText() {
            return true;
        }

        @Override
        Object read(String text, Names names) {
            List<Object> exposures = new ArrayList<>();
            for (String part : parts(text)) {
                String[] sides = sides(part, '=');
                Matcher figure = form.matcher(sides == null ? "" : sides[1]);
                if (sides == null || !figure.matches()) {
                    throw new Refused("exchange.exposures", part);
                }
                exposures.add(
                        fields("substance", sides[0], "value", decimal(figure.group(1)), "unit", figure.group(2)));
            }
            return exposures;
        }

        @Override
        String write(Object value, Names names) {
            return maps(value).stream()
                    .map(one -> one.get("substance") + "=" + plain(one.get("value")) + " " + one.get("unit"))
                    .collect(Collectors.joining("; "));
        }
    };

    /** {@code 1.4 for 95 min; 0.35 for 150 min}: what was measured one after the other. */
    static final Form PARTS = new Form("parts") {
        private final Pattern form = Pattern.compile("([0-9]+(?:\\.[0-9]+)?) +for +([0-9]{1,4}) +min");

        @Override
        boolean isText() {
            return true;
        }

        @Override
        Object read(String text, Names names) {
            List<Object> measured = new ArrayList<>();
            for (String part : parts(text)) {
                Matcher figures = form.matcher(part);
                if (!figures.matches()) {
                    throw new Refused("exchange.parts", part);
                }
                measured.add(fields("value", decimal(figures.group(1)), "minutes", Integer.valueOf(figures.group(2))));
            }
            return measured;
        }

        @Override
        String write(Object value, Names names) {
            return maps(value).stream()
                    .map(one -> plain(one.get("value")) + " for " + one.get("minutes") + " min")
                    .collect(Collectors.joining("; "));
        }
    };

    /** {@code OX-4=1000 ppm available chlorine, 600 s}. */
    static final Form PRODUCTS = new Form("products") {
        private final Pattern form = Pattern.compile("([0-9]+(?:\\.[0-9]+)?) +([^,;=]*[^,;= ]), *([0-9]{1,6}) s");

        @Override
        boolean isText() {
            return true;
        }

        @Override
        Object read(String text, Names names) {
            List<Object> products = new ArrayList<>();
            for (String part : parts(text)) {
                String[] sides = sides(part, '=');
                Matcher recipe = form.matcher(sides == null ? "" : sides[1]);
                if (sides == null || !recipe.matches()) {
                    throw new Refused("exchange.products", part);
                }
                products.add(fields(
                        "code", sides[0],
                        "strength", decimal(recipe.group(1)),
                        "basis", recipe.group(2),
                        "wetSeconds", Integer.valueOf(recipe.group(3))));
            }
            return products;
        }

        @Override
        String write(Object value, Names names) {
            return maps(value).stream()
                    .map(one -> one.get("code") + "=" + plain(one.get("strength")) + " " + one.get("basis") + ", "
                            + one.get("wetSeconds") + " s")
                    .collect(Collectors.joining("; "));
        }
    };

    /** {@code visor=V-1|V-2, 24 months; hose=H-1}. */
    static final Form SLOTS = new Form("slots") {
        @Override
        boolean isText() {
            return true;
        }

        @Override
        Object read(String text, Names names) {
            List<Object> slots = new ArrayList<>();
            for (String part : parts(text)) {
                String[] sides = sides(part, '=');
                if (sides == null) {
                    throw new Refused("exchange.slots", part);
                }
                slots.add(SlotText.read(part, sides[0], sides[1]));
            }
            return slots;
        }

        @Override
        String write(Object value, Names names) {
            return maps(value).stream().map(SlotText::write).collect(Collectors.joining("; "));
        }
    };

    /** {@code visor=pass; hose=fail}. */
    static final Form ITEMS = new Form("items") {
        @Override
        List<String> choices() {
            return Stream.of(PreUseCheck.Item.values())
                    .map(constant -> word(constant))
                    .toList();
        }

        @Override
        Object read(String text, Names names) {
            Map<String, Object> items = new TreeMap<>();
            for (String part : parts(text)) {
                String[] sides = sides(part, '=');
                if (sides == null
                        || items.put(
                                        constant(sides[0], PreUseCheck.Item.values())
                                                .name(),
                                        constant(sides[1], Outcome.values()).name())
                                != null) {
                    throw new Refused("exchange.items", part);
                }
            }
            return items;
        }

        @Override
        String write(Object value, Names names) {
            return new TreeMap<>((Map<?, ?>) value)
                    .entrySet().stream()
                            .map(one -> word(one.getKey().toString()) + "="
                                    + word(one.getValue().toString()))
                            .collect(Collectors.joining("; "));
        }
    };

    /** What a booked seat gives. */
    static final Form BOOKED = choice(Kind.TRAINING, Kind.MEDICAL_OUTCOME, Kind.FIT_TEST);

    /** How a constant is written in a file: small letters and hyphens. */
    static String word(Enum<?> constant) {
        return word(constant.name());
    }

    static String word(String name) {
        return name.toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private static Enum<?> constant(String text, Enum<?>... constants) {
        String asked = text.toLowerCase(Locale.ROOT);
        for (Enum<?> constant : constants) {
            if (word(constant).equals(asked)) {
                return constant;
            }
        }
        throw new Refused(
                "exchange.choice",
                text,
                Stream.of(constants).map(constant -> word(constant)).collect(Collectors.joining(", ")));
    }

    /** Digits with a point at most: a comma could mean either thing. */
    static BigDecimal decimal(String text) {
        if (text.length() > 20 || !text.matches("-?[0-9]+(\\.[0-9]+)?")) {
            throw new Refused("exchange.decimal", text);
        }
        return new BigDecimal(text);
    }

    private static String plain(@Nullable Object number) {
        return number instanceof BigDecimal decimal ? decimal.toPlainString() : String.valueOf(number);
    }

    private static List<String> parts(String text) {
        List<String> parts = Stream.of(text.split(";", -1)).map(String::strip).toList();
        if (parts.contains("")) {
            throw new Refused("exchange.emptyPart", text);
        }
        return parts;
    }

    private static String @Nullable [] sides(String part, char between) {
        int at = part.indexOf(between);
        if (at <= 0 || at == part.length() - 1) {
            return null;
        }
        return new String[] {
            part.substring(0, at).strip(), part.substring(at + 1).strip()
        };
    }

    static List<?> list(@Nullable Object value) {
        return value instanceof List<?> list ? list : List.of();
    }

    private static List<Map<?, ?>> maps(Object value) {
        List<Map<?, ?>> maps = new ArrayList<>();
        list(value).forEach(one -> maps.add((Map<?, ?>) one));
        return maps;
    }

    private static Map<String, Object> fields(Object... namesAndValues) {
        Map<String, Object> fields = new LinkedHashMap<>();
        for (int i = 0; i < namesAndValues.length; i += 2) {
            fields.put((String) namesAndValues[i], namesAndValues[i + 1]);
        }
        return fields;
    }
}
