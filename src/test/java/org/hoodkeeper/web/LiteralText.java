package org.hoodkeeper.web;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Finds words that stand in a template itself instead of in a message. Names are marked {@code translate="no"}. */
final class LiteralText {

    private static final Pattern COMMENT = Pattern.compile("<!--.*?-->", Pattern.DOTALL);
    private static final Pattern TOKEN = Pattern.compile(
            "<(/?)([a-zA-Z][\\w:-]*)((?:\\s+[^\\s=>/\"]+(?:\\s*=\\s*\"[^\"]*\")?)*)\\s*(/?)>|([^<]+)|<[^>]*>",
            Pattern.DOTALL);
    private static final Pattern ATTRIBUTE = Pattern.compile("([^\\s=]+)\\s*=\\s*\"([^\"]*)\"");
    private static final Pattern QUOTED = Pattern.compile("(==|!=|eq|ne)?\\s*'([^']*)'|\\|([^|]*)\\|");
    private static final Set<String> SPOKEN = Set.of("title", "alt", "placeholder", "aria-label", "label", "data-head");
    private static final Set<String> VOID = Set.of("input", "img", "br", "hr", "meta", "link", "path", "col", "area");

    private LiteralText() {}

    static List<String> in(String template) {
        List<String> found = new ArrayList<>();
        Deque<Boolean> names = new ArrayDeque<>();
        names.push(false);
        Matcher token = TOKEN.matcher(withoutComments(template));
        while (token.find()) {
            if (token.group(5) != null) {
                String text = token.group(5).replaceAll("\\[\\[.*?]]", "");
                if (!names.peek() && hasLetters(text)) {
                    found.add(text.strip());
                }
            } else if (token.group(2) != null && token.group(1).isEmpty()) {
                inAttributes(token.group(2), token.group(3), found);
                boolean name = token.group(3).contains("translate=\"no\"");
                if (token.group(4).isEmpty() && !VOID.contains(token.group(2))) {
                    names.push(names.peek() || name);
                }
            } else if (token.group(2) != null && names.size() > 1) {
                names.pop();
            }
        }
        return found;
    }

    static String withoutComments(String template) {
        return COMMENT.matcher(template).replaceAll("");
    }

    private static void inAttributes(String element, String attributes, List<String> found) {
        Matcher attribute = ATTRIBUTE.matcher(attributes);
        while (attribute.find()) {
            String name = attribute.group(1);
            String value = attribute.group(2);
            boolean button = element.equals("input") && name.equals("value") && attributes.contains("submit");
            if ((SPOKEN.contains(name) || button) && hasLetters(value)) {
                found.add(name + "=" + value);
            }
            if (name.equals("th:text") || name.startsWith("th:") && SPOKEN.contains(name.substring(3))) {
                inExpression(value, found);
            }
        }
    }

    /** Quoted words that are shown; those compared, given to a call or part of a key are not. */
    private static void inExpression(String expression, List<String> found) {
        Matcher quoted = QUOTED.matcher(expression.replaceAll("__.*?__|\\.\\w+\\('[^']*'\\)", ""));
        while (quoted.find()) {
            String words =
                    quoted.group(2) != null ? quoted.group(2) : quoted.group(3).replaceAll("[$#]\\{[^}]*}", "");
            if (quoted.group(1) == null && hasLetters(words)) {
                found.add(words);
            }
        }
    }

    private static boolean hasLetters(String text) {
        return text.replaceAll("&\\w+;", "").codePoints().anyMatch(Character::isLetter);
    }
}
