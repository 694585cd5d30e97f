package org.hoodkeeper.rules;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;
import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.NodeTuple;
import org.yaml.snakeyaml.nodes.ScalarNode;
import org.yaml.snakeyaml.nodes.SequenceNode;

/** One block of fields in a file. Each field is taken once; what nobody took is refused, so that a misspelt field is noticed. */
final class YamlFields {

    private final Node block;

    private final Map<String, Node> fields = new LinkedHashMap<>();

    private final Set<String> taken = new LinkedHashSet<>();

    private YamlFields(MappingNode block) {
        this.block = block;
        for (NodeTuple tuple : block.getValue()) {
            String name = scalar("", tuple.getKeyNode());
            if (fields.put(name, tuple.getValueNode()) != null) {
                throw new Refused("rules.file.duplicate", line(tuple.getKeyNode()), name, name);
            }
        }
    }

    static YamlFields of(String name, Node node) {
        if (node instanceof MappingNode mapping) {
            return new YamlFields(mapping);
        }
        throw new Refused("rules.file.notFields", line(node), name);
    }

    int line() {
        return line(block);
    }

    Set<String> names() {
        return fields.keySet();
    }

    String text(String name) {
        return scalar(name, require(name));
    }

    @Nullable String textOrNone(String name) {
        Node node = take(name);
        return node == null ? null : scalar(name, node);
    }

    <T> T value(String name, Function<String, T> reader) {
        return read(name, require(name), reader);
    }

    <T> @Nullable T valueOrNone(String name, Function<String, T> reader) {
        Node node = take(name);
        return node == null ? null : read(name, node, reader);
    }

    <E extends Enum<E>> E choice(String name, Class<E> type) {
        return constant(name, require(name), type);
    }

    <E extends Enum<E>> E choice(String name, Class<E> type, E otherwise) {
        Node node = take(name);
        return node == null ? otherwise : constant(name, node, type);
    }

    <E extends Enum<E>> Set<E> choices(String name, Class<E> type) {
        Set<E> all = new LinkedHashSet<>();
        for (Node node : items(name)) {
            all.add(constant(name, node, type));
        }
        return all;
    }

    List<String> textsOrNone(String name) {
        return fields.containsKey(name)
                ? items(name).stream().map(node -> scalar(name, node)).toList()
                : List.of();
    }

    List<YamlFields> blocks(String name) {
        return items(name).stream().map(node -> of(name, node)).toList();
    }

    List<YamlFields> blocksOrNone(String name) {
        return fields.containsKey(name) ? blocks(name) : List.of();
    }

    YamlFields fields(String name) {
        return of(name, require(name));
    }

    /** Call when all known fields are taken. */
    void refuseRest() {
        for (Map.Entry<String, Node> field : fields.entrySet()) {
            if (!taken.contains(field.getKey())) {
                throw new Refused("rules.file.unknownField", line(field.getValue()), field.getKey());
            }
        }
    }

    Refused refusal(String name, String allowed) {
        Node node = fields.getOrDefault(name, block);
        return new Refused(
                "rules.file.value",
                line(node),
                name,
                node instanceof ScalarNode scalar ? scalar.getValue() : "",
                allowed);
    }

    static LocalDate day(String text) {
        return LocalDate.parse(text);
    }

    private <T> T read(String name, Node node, Function<String, T> reader) {
        String text = scalar(name, node);
        try {
            return reader.apply(text);
        } catch (DateTimeParseException | NumberFormatException | Refused unreadable) {
            throw new Refused("rules.file.value", line(node), name, text, "");
        }
    }

    private static <E extends Enum<E>> E constant(String name, Node node, Class<E> type) {
        String text = scalar(name, node);
        for (E constant : type.getEnumConstants()) {
            if (constant.name().equals(text)) {
                return constant;
            }
        }
        throw new Refused("rules.file.value", line(node), name, text, Arrays.toString(type.getEnumConstants()));
    }

    private List<Node> items(String name) {
        Node node = require(name);
        if (node instanceof SequenceNode sequence && !sequence.getValue().isEmpty()) {
            return sequence.getValue();
        }
        throw new Refused("rules.file.notList", line(node), name);
    }

    private @Nullable Node take(String name) {
        taken.add(name);
        return fields.get(name);
    }

    private Node require(String name) {
        Node node = take(name);
        if (node == null) {
            throw new Refused("rules.file.missingField", line(), name);
        }
        return node;
    }

    private static String scalar(String name, Node node) {
        if (node instanceof ScalarNode scalar && !scalar.getValue().isBlank()) {
            return scalar.getValue().strip();
        }
        throw new Refused("rules.file.notText", line(node), name);
    }

    /** Counted from 1, as editors do. */
    static int line(Node node) {
        return node.getStartMark().getLine() + 1;
    }

    static BigDecimal positive(String text) {
        BigDecimal value = new BigDecimal(text);
        if (value.signum() <= 0) {
            throw new NumberFormatException(text);
        }
        return value;
    }
}
