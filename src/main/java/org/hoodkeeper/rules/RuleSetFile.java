package org.hoodkeeper.rules;

import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.LocalDate;
import java.time.Period;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.constructor.SafeConstructor;
import org.yaml.snakeyaml.error.MarkedYAMLException;
import org.yaml.snakeyaml.error.YAMLException;
import org.yaml.snakeyaml.nodes.Node;

/**
 * Reads a rule set from its file: YAML, since a rule needs remarks beside it and a person must be able to review a change line by
 * line; read as nodes and not as objects, since nodes know their line, so that a refusal can name it, and no class is ever
 * made from what a file says.
 */
public final class RuleSetFile {

    private final YamlFields file;

    private final LocalDate firstDay;

    private final Map<String, String> sources = new HashMap<>();

    private final Map<String, Set<InterfaceType>> groups = new LinkedHashMap<>();

    private final Set<String> decisionKeys = new HashSet<>();

    private final Map<String, List<InForceDays>> factorDays = new HashMap<>();

    private RuleSetFile(YamlFields file) {
        this.file = file;
        this.firstDay = file.value("inForceFrom", YamlFields::day);
        YamlFields titles = file.fields("sources");
        titles.names().forEach(name -> sources.put(name, titles.text(name)));
        groups.put("ALL", EnumSet.allOf(InterfaceType.class));
        YamlFields named = file.fields("groups");
        named.names().forEach(name -> groups.put(name, named.choices(name, InterfaceType.class)));
    }

    /**
     * @param stream UTF-8
     * @return the rule set, if the file is sound in every field
     * @throws Refused {@code rules.file.*} with the line and the field as its first arguments: {@code syntax}, {@code notFields},
     *     {@code notList}, {@code notText}, {@code missingField}, {@code unknownField}, {@code value}, {@code duplicate},
     *     {@code reference}, {@code overlap}, {@code encoding}
     */
    public static RuleSet parse(InputStream stream) throws IOException {
        byte[] bytes = stream.readAllBytes();
        String text = decode(bytes).replace("\r\n", "\n");
        return new RuleSetFile(YamlFields.of("file", compose(text))).read(hash(text));
    }

    private RuleSet read(String hash) {
        List<SiteDecisionRule> decisions = each("decisions", "key", RuleSetFile::decision);
        decisions.forEach(decision -> decisionKeys.add(decision.key()));
        RuleSet set = new RuleSet(
                file.text("code"),
                file.text("version"),
                file.text("jurisdiction"),
                new InForceDays(firstDay, file.valueOrNone("inForceUntil", YamlFields::day)),
                each("rules", "code", this::rule),
                each("factors", null, this::factor),
                dangerousAir(),
                each("fitTests", null, this::fitTest),
                each("limits", "code", this::limit),
                each("retention", "code", this::retention),
                decisions,
                each("notes", null, this::provenance),
                hash);
        file.refuseRest();
        return set;
    }

    /** @param unique the field that must differ in each block; none where none is */
    private <T> List<T> each(String section, @Nullable String unique, Function<YamlFields, T> reader) {
        List<T> all = new ArrayList<>();
        Set<String> seen = new HashSet<>();
        for (YamlFields fields : file.blocks(section)) {
            if (unique != null && !seen.add(fields.text(unique))) {
                throw new Refused("rules.file.duplicate", fields.line(), unique, fields.text(unique));
            }
            all.add(reader.apply(fields));
            fields.refuseRest();
        }
        return all;
    }

    private Rule rule(YamlFields fields) {
        Effect effect = fields.choice("effect", Effect.class, Effect.REQUIRED);
        Term term = fields.valueOrNone("term", Term::of);
        String decision = fields.textOrNone("decision");
        Anchor anchor = fields.choice("anchor", Anchor.class, Anchor.NONE);
        if (effect == Effect.SITE_DECIDES && decision == null) {
            throw new Refused("rules.file.missingField", fields.line(), "decision");
        }
        if (decision != null && !decisionKeys.contains(decision)) {
            throw reference(fields, "decision", decision);
        }
        if (term != null && anchor == Anchor.NONE) {
            throw new Refused("rules.file.missingField", fields.line(), "anchor");
        }
        return new Rule(
                fields.text("code"),
                fields.choice("requires", RequirementKind.class),
                effect,
                interfaces(fields),
                fields.choice("when", Circumstance.class, Circumstance.ALWAYS),
                term,
                decision,
                anchor,
                fields.choice("lastDay", LastDay.class, LastDay.INCLUDED) == LastDay.INCLUDED,
                provenance(fields),
                inForce(fields));
    }

    /** How a file says whether the day on which a term ends is still covered. */
    private enum LastDay {
        INCLUDED,
        EXCLUDED
    }

    private ProtectionFactor factor(YamlFields fields) {
        ProtectionFactor factor = new ProtectionFactor(
                fields.text("class"),
                interfaces(fields),
                fields.value("factor", YamlFields::positive),
                provenance(fields),
                inForce(fields));
        List<InForceDays> before = factorDays.computeIfAbsent(factor.deviceClass(), any -> new ArrayList<>());
        // two factors for one class on one day would leave the answer to the order of lines
        if (before.stream().anyMatch(factor.inForce()::overlaps)) {
            throw new Refused("rules.file.overlap", fields.line(), "class", factor.deviceClass());
        }
        before.add(factor.inForce());
        return factor;
    }

    /** A file from before there was such a section names no class. */
    private List<DangerousAirRule> dangerousAir() {
        List<DangerousAirRule> all = new ArrayList<>();
        for (YamlFields fields : file.blocksOrNone("dangerousAir")) {
            String deviceClass = fields.text("class");
            if (!factorDays.containsKey(deviceClass)) {
                throw reference(fields, "class", deviceClass);
            }
            all.add(new DangerousAirRule(deviceClass, provenance(fields), inForce(fields)));
            fields.refuseRest();
        }
        return all;
    }

    private FitTestRule fitTest(YamlFields fields) {
        return new FitTestRule(
                interfaces(fields),
                fields.choice("reading", FitTestRule.Reading.class),
                fields.value("level", YamlFields::positive),
                fields.choice("qualitative", FitTestRule.Qualitative.class),
                fields.valueOrNone("qualitativeUpTo", YamlFields::positive),
                provenance(fields),
                inForce(fields));
    }

    private PublishedLimit limit(YamlFields fields) {
        BigDecimal atLeast = fields.valueOrNone("atLeast", BigDecimal::new);
        BigDecimal atMost = fields.valueOrNone("atMost", BigDecimal::new);
        if (atLeast == null && atMost == null) {
            throw new Refused("rules.file.missingField", fields.line(), "atLeast");
        }
        if (atLeast != null && atMost != null && atLeast.compareTo(atMost) > 0) {
            throw fields.refusal("atLeast", "<= " + atMost);
        }
        return new PublishedLimit(
                fields.text("code"),
                fields.choice("quantity", PublishedLimit.Quantity.class),
                interfaces(fields),
                atLeast,
                atMost,
                fields.text("unit"),
                provenance(fields),
                inForce(fields));
    }

    private RetentionRule retention(YamlFields fields) {
        RetentionRule.From from = fields.choice("from", RetentionRule.From.class);
        Period span = fields.valueOrNone("span", Period::parse);
        if ((span == null) != (from == RetentionRule.From.NEXT_OF_KIND) || (span != null && span.isNegative())) {
            throw fields.refusal("span", from.name());
        }
        return new RetentionRule(
                fields.text("code"),
                fields.choices("kinds", Kind.class),
                fields.choice("which", RetentionRule.Which.class, RetentionRule.Which.ALL),
                from,
                span,
                provenance(fields));
    }

    private static SiteDecisionRule decision(YamlFields fields) {
        String byDefault = fields.textOrNone("default");
        Mark mark = byDefault == null ? null : fields.choice("mark", Mark.class);
        SiteDecisionRule.Form form = fields.choice("form", SiteDecisionRule.Form.class);
        try {
            return new SiteDecisionRule(
                    fields.text("key"),
                    fields.choice("each", SiteDecisionRule.Each.class, SiteDecisionRule.Each.SITE),
                    form,
                    fields.textsOrNone("choices"),
                    byDefault,
                    mark,
                    fields.choice("owner", SiteDecisionRule.Owner.class),
                    fields.text("meaning"));
        } catch (Refused refused) {
            throw refused.code().startsWith("rules.decision.value.") ? fields.refusal("default", form.name()) : refused;
        }
    }

    private Provenance provenance(YamlFields fields) {
        String source = fields.text("source");
        String title = sources.get(source);
        if (title == null) {
            throw reference(fields, "source", source);
        }
        return new Provenance(
                fields.text("clause"), title, fields.choice("mark", Mark.class), fields.textOrNone("note"));
    }

    private InForceDays inForce(YamlFields fields) {
        LocalDate from = fields.valueOrNone("inForceFrom", YamlFields::day);
        LocalDate until = fields.valueOrNone("inForceUntil", YamlFields::day);
        LocalDate first = from == null ? firstDay : from;
        if (until != null && until.isBefore(first)) {
            throw fields.refusal("inForceUntil", ">= " + first);
        }
        return new InForceDays(first, until);
    }

    private Set<InterfaceType> interfaces(YamlFields fields) {
        String name = fields.text("interfaces");
        Set<InterfaceType> group = groups.get(name);
        if (group != null) {
            return group;
        }
        throw fields.refusal("interfaces", String.join(", ", groups.keySet()));
    }

    private static Refused reference(YamlFields fields, String field, String value) {
        return new Refused("rules.file.reference", fields.line(), field, value);
    }

    private static Node compose(String text) {
        LoaderOptions options = new LoaderOptions();
        options.setMaxAliasesForCollections(0);
        try {
            @Nullable Node node = new Yaml(new SafeConstructor(options)).compose(new StringReader(text));
            if (node == null) {
                throw new Refused("rules.file.syntax", 1, "empty");
            }
            return node;
        } catch (MarkedYAMLException malformed) {
            int line = malformed.getProblemMark() == null
                    ? 1
                    : malformed.getProblemMark().getLine() + 1;
            throw new Refused("rules.file.syntax", line, String.valueOf(malformed.getProblem()));
        } catch (YAMLException malformed) {
            throw new Refused("rules.file.syntax", 1, String.valueOf(malformed.getMessage()));
        }
    }

    private static String decode(byte[] bytes) {
        try {
            return StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
        } catch (CharacterCodingException notUtf8) {
            throw new Refused("rules.file.encoding", 1, "UTF-8");
        }
    }

    private static String hash(String text) {
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            return HexFormat.of().formatHex(digest.digest(text.getBytes(StandardCharsets.UTF_8)));
        } catch (NoSuchAlgorithmException missing) {
            throw new IllegalStateException("every Java runtime has SHA-256", missing);
        }
    }
}
