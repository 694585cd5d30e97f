package org.hoodkeeper.exchange;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.facts.PartCare;
import org.hoodkeeper.kernel.Refused;

/**
 * A place of a model as text: {@code visor=V-1|V-2, 24 months, 40 C, bears OX-4|AL-70:60, by hand-wash|spray, 300 washes}, or
 * {@code filter=F-1, never washed}. Everything after the parts may be left out, in any order.
 */
final class SlotText {

    private static final Pattern MONTHS = Pattern.compile("([0-9]{1,3}) months");
    private static final Pattern CELSIUS = Pattern.compile("([0-9]{1,3}(?:\\.[0-9])?) C");
    private static final Pattern WASHES = Pattern.compile("([0-9]{1,5}) washes");
    private static final Pattern BEARS = Pattern.compile("bears ([^,;=]+)");
    private static final Pattern BY = Pattern.compile("by ([a-z|\\- ]+)");
    private static final String NEVER = "never washed";

    private SlotText() {}

    /** @throws Refused {@code exchange.slots} with the text when it cannot be read */
    static Map<String, Object> read(String text, String name, String rest) {
        List<String> tokens =
                Arrays.stream(rest.split(",", -1)).map(String::strip).toList();
        Map<String, Object> slot = new LinkedHashMap<>();
        slot.put("name", name);
        slot.put("parts", words(text, tokens.get(0)));
        Map<String, Object> care = new LinkedHashMap<>();
        for (String token : tokens.subList(1, tokens.size())) {
            token(text, token, slot, care);
        }
        if (!care.isEmpty()) {
            care.putIfAbsent("neverWashed", false);
            slot.put("care", care);
        }
        return slot;
    }

    private static void token(String text, String token, Map<String, Object> slot, Map<String, Object> care) {
        Matcher found;
        if ((found = MONTHS.matcher(token)).matches()) {
            slot.put("lifeMonths", Integer.valueOf(found.group(1)));
        } else if ((found = CELSIUS.matcher(token)).matches()) {
            care.put("maxCelsius", new BigDecimal(found.group(1)));
        } else if ((found = WASHES.matcher(token)).matches()) {
            care.put("cycles", Integer.valueOf(found.group(1)));
        } else if ((found = BEARS.matcher(token)).matches()) {
            care.put(
                    "products",
                    words(text, found.group(1)).stream()
                            .map(one -> bears(text, one))
                            .toList());
        } else if ((found = BY.matcher(token)).matches()) {
            care.put(
                    "methods",
                    words(text, found.group(1)).stream()
                            .map(one -> bath(text, one))
                            .toList());
        } else if (token.equals(NEVER)) {
            care.put("neverWashed", true);
        } else {
            throw new Refused("exchange.slots", text);
        }
    }

    private static Map<String, Object> bears(String text, String one) {
        String[] sides = one.split(":", -1);
        Map<String, Object> bears = new LinkedHashMap<>();
        bears.put("code", sides[0].strip());
        if (sides.length == 2 && sides[1].strip().matches("[0-9]{1,5}")) {
            bears.put("longest", Integer.valueOf(sides[1].strip()));
        } else if (sides.length > 1) {
            throw new Refused("exchange.slots", text);
        }
        return bears;
    }

    private static String bath(String text, String word) {
        return Stream.of(PartCare.Bath.values())
                .filter(bath -> Form.word(bath.name()).equals(word))
                .map(Enum::name)
                .findFirst()
                .orElseThrow(() -> new Refused("exchange.slots", text));
    }

    private static List<String> words(String text, String several) {
        List<String> words = new ArrayList<>();
        for (String word : several.split("\\|", -1)) {
            if (word.isBlank() || word.indexOf('=') >= 0) {
                throw new Refused("exchange.slots", text);
            }
            words.add(word.strip());
        }
        return words;
    }

    static String write(Map<?, ?> slot) {
        List<String> tokens = new ArrayList<>();
        tokens.add(slot.get("name") + "=" + joined(Form.list(slot.get("parts")).stream()));
        if (slot.get("lifeMonths") != null) {
            tokens.add(slot.get("lifeMonths") + " months");
        }
        if (slot.get("care") instanceof Map<?, ?> care) {
            write(care, tokens);
        }
        return String.join(", ", tokens);
    }

    private static void write(Map<?, ?> care, List<String> tokens) {
        if (care.get("maxCelsius") != null) {
            tokens.add(new BigDecimal(care.get("maxCelsius").toString()).toPlainString() + " C");
        }
        if (care.get("products") instanceof List<?> products) {
            tokens.add("bears " + joined(products.stream().map(SlotText::product)));
        }
        if (care.get("methods") instanceof List<?> methods) {
            tokens.add("by " + joined(methods.stream().map(one -> Form.word(one.toString()))));
        }
        if (Boolean.TRUE.equals(care.get("neverWashed"))) {
            tokens.add(NEVER);
        }
        if (care.get("cycles") != null) {
            tokens.add(care.get("cycles") + " washes");
        }
    }

    private static String product(Object one) {
        Map<?, ?> bears = (Map<?, ?>) one;
        Object longest = bears.get("longest");
        return Objects.toString(bears.get("code")) + (longest == null ? "" : ":" + longest);
    }

    private static String joined(Stream<?> words) {
        return words.map(Object::toString).collect(Collectors.joining("|"));
    }
}
