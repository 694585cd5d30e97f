package org.hoodkeeper.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * A rule that stands in a file and that no judgement asks for looks like a duty that is kept. Each is either asked for or named
 * here with the reason, and in README under Limits.
 */
class AskedRulesTest {

    private static final String NO_ASBESTOS = "no record says that a task is work with asbestos, or of which sort";

    private static final String NO_CHANGE =
            "no record tells of a change in face, health or work as such: hold the person, open a trigger at the task";

    /** Requirement and circumstance. */
    private static final Map<String, String> CIRCUMSTANCES_NOT_ASKED_FOR = Map.of(
            "MEDICAL LICENSED_ASBESTOS", NO_ASBESTOS,
            "MEDICAL NOTIFIABLE_ASBESTOS", NO_ASBESTOS,
            "FIT_TEST LICENSED_ASBESTOS", NO_ASBESTOS,
            "TRAINING CHANGED_SINCE", NO_CHANGE,
            "MEDICAL CHANGED_SINCE", NO_CHANGE,
            "FIT_TEST CHANGED_SINCE", NO_CHANGE,
            "AIR_SUPPLY MOVED_SINCE", "the judgement asks for the rule's decision, air.moved-voids, itself",
            "EXAMINATION ESCAPE_ONLY", "no set is on record as one for getting out alone",
            "CLEAN FIT_TEST_SET", "no set is on record as one for fit tests");

    private static final Map<String, String> QUANTITIES_NOT_ASKED_FOR = Map.of(
            "OXYGEN_AT_PLACE", "oxygen at the place is not measured on record: the assessment says whether it is short",
            "CYLINDER_DEW_POINT", "whether a supply is a compressor or cylinders is not on record");

    private static final Pattern CIRCUMSTANCE =
            Pattern.compile("demand\\(\\s*([A-Z_]+),\\s*Circumstance\\.([A-Z_]+)\\)");

    private static final Pattern QUANTITY = Pattern.compile("PublishedLimit\\.Quantity\\.([A-Z_]+)");

    private static final List<RuleSet> FILES = List.of(PublishedRuleSetsTest.UK, PublishedRuleSetsTest.US);

    private static String judgements;

    @BeforeAll
    static void theCodeThatJudges() throws IOException {
        StringBuilder code = new StringBuilder();
        try (Stream<Path> files = Files.walk(Path.of("src/main/java/org/hoodkeeper/assessment"))) {
            for (Path file :
                    files.filter(one -> one.toString().endsWith(".java")).toList()) {
                code.append(Files.readString(file));
            }
        }
        judgements = code.toString();
    }

    private static Set<String> asked(Pattern pattern) {
        Set<String> asked = new HashSet<>();
        Matcher found = pattern.matcher(judgements);
        while (found.find()) {
            asked.add(found.groupCount() == 1 ? found.group(1) : found.group(1) + " " + found.group(2));
        }
        return asked;
    }

    @Test
    void everyCircumstanceIsAskedForOrNamedHere() {
        Set<String> asked = asked(CIRCUMSTANCE);
        assertThat(asked).as("the pattern finds what there is").contains("EXAMINATION WORN_SINCE", "CLEAN ONE_WEARER");
        Set<String> ruled = FILES.stream()
                .flatMap(set -> set.rules().stream())
                .filter(rule -> rule.when() != Circumstance.ALWAYS)
                .map(rule -> rule.requirement() + " " + rule.when())
                .collect(Collectors.toCollection(TreeSet::new));
        ruled.removeAll(asked);
        assertThat(ruled).containsExactlyInAnyOrderElementsOf(CIRCUMSTANCES_NOT_ASKED_FOR.keySet());
    }

    @Test
    void everyQuantityIsAskedForOrNamedHere() {
        Set<String> limited = FILES.stream()
                .flatMap(set -> set.limits().stream())
                .map(limit -> limit.quantity().name())
                .collect(Collectors.toCollection(TreeSet::new));
        limited.removeAll(asked(QUANTITY));
        assertThat(limited).containsExactlyInAnyOrderElementsOf(QUANTITIES_NOT_ASKED_FOR.keySet());
    }
}
