package org.hoodkeeper.ledger;

import java.util.Map;
import org.hoodkeeper.facts.Fact;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.Id;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonGenerator;
import tools.jackson.core.JsonParser;
import tools.jackson.core.StreamWriteFeature;
import tools.jackson.core.type.TypeReference;
import tools.jackson.databind.DeserializationContext;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.MapperFeature;
import tools.jackson.databind.SerializationContext;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.ValueDeserializer;
import tools.jackson.databind.ValueSerializer;
import tools.jackson.databind.cfg.DateTimeFeature;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.module.SimpleModule;
import tools.jackson.databind.node.ObjectNode;

/**
 * Facts as JSON in one fixed spelling: names in alphabetical order, absent values left out, numbers in plain digits, dates as
 * ISO 8601. The same fact is the same text, so its digest can be compared and verified.
 */
public final class FactJson {

    private static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(MapperFeature.SORT_PROPERTIES_ALPHABETICALLY)
            .enable(SerializationFeature.ORDER_MAP_ENTRIES_BY_KEYS)
            .enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN)
            .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
            .disable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
            .disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
            .disable(DateTimeFeature.WRITE_DATES_AS_TIMESTAMPS)
            .changeDefaultPropertyInclusion(
                    value -> value.withValueInclusion(com.fasterxml.jackson.annotation.JsonInclude.Include.NON_EMPTY))
            .addModule(ids())
            .build();

    private static final TypeReference<Map<String, Object>> FIELDS = new TypeReference<>() {};

    /** Why a correction was made: stands in the hidden part of every kind. */
    static final String BECAUSE = "because";

    private FactJson() {}

    /** A fact from its fields, as {@link #values} gives them. */
    public static <F extends Fact> F of(Map<String, ?> values, Class<F> type) {
        return MAPPER.convertValue(values, type);
    }

    /** A fact's fields as plain values: text, numbers, lists, maps; absent ones left out. */
    public static Map<String, Object> values(Fact fact) {
        return MAPPER.convertValue(fact, FIELDS);
    }

    /** The fields of a stored body, as {@link #values} has them. */
    public static Map<String, Object> values(String body) {
        return MAPPER.readValue(body, FIELDS);
    }

    /** Names and free text; none where the fact has none. */
    public static @Nullable String hidden(Fact fact) {
        return hidden(fact, null);
    }

    /** The public part: everything but names and free text. */
    public static String open(Fact fact) {
        ObjectNode all = MAPPER.valueToTree(fact);
        all.remove(Kind.of(fact).privateFields());
        return MAPPER.writeValueAsString(all);
    }

    /**
     * Names and free text; none where the fact has none. A medical fact always has this part, be it empty: its salt keeps
     * anybody from guessing an erased outcome by the hash that is left of it.
     */
    static @Nullable String hidden(Fact fact, @Nullable String because) {
        ObjectNode all = MAPPER.valueToTree(fact);
        all.retain(Kind.of(fact).privateFields());
        if (because != null) {
            all.put(BECAUSE, because);
        }
        return all.isEmpty() && !Kind.of(fact).isMedical() ? null : MAPPER.writeValueAsString(all);
    }

    public static <F extends Fact> F read(String body, Class<F> type) {
        return MAPPER.readValue(body, type);
    }

    /** Open and hidden part together, for a reader who may see both. */
    static Fact read(String body, String hidden, Class<? extends Fact> type) {
        ObjectNode all = (ObjectNode) MAPPER.readTree(body);
        all.setAll((ObjectNode) MAPPER.readTree(hidden));
        return MAPPER.treeToValue(all, type);
    }

    static @Nullable String because(String hidden) {
        JsonNode because = MAPPER.readTree(hidden).get(BECAUSE);
        return because == null ? null : because.asString();
    }

    private static SimpleModule ids() {
        SimpleModule module = new SimpleModule("ids");
        module.addSerializer(Id.class, new ValueSerializer<Id>() {
            @Override
            public void serialize(Id id, JsonGenerator generator, SerializationContext context)
                    throws JacksonException {
                generator.writeString(id.value().toString());
            }
        });
        add(module, org.hoodkeeper.kernel.TaskId.class, org.hoodkeeper.kernel.TaskId::of);
        add(module, org.hoodkeeper.kernel.ModelId.class, org.hoodkeeper.kernel.ModelId::of);
        add(module, org.hoodkeeper.kernel.InstrumentId.class, org.hoodkeeper.kernel.InstrumentId::of);
        add(module, org.hoodkeeper.kernel.SupplyId.class, org.hoodkeeper.kernel.SupplyId::of);
        add(module, org.hoodkeeper.kernel.SetId.class, org.hoodkeeper.kernel.SetId::of);
        return module;
    }

    private static <T> void add(SimpleModule module, Class<T> type, java.util.function.Function<String, T> of) {
        module.addDeserializer(type, new ValueDeserializer<T>() {
            @Override
            public T deserialize(JsonParser parser, DeserializationContext context) throws JacksonException {
                return of.apply(parser.getString());
            }
        });
    }
}
