package org.hoodkeeper.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import org.hoodkeeper.facts.InterfaceType;
import org.hoodkeeper.facts.Mark;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RuleSetFileTest {

    private static final String GOOD = """
            code: test
            version: 2026-1
            jurisdiction: Nowhere
            inForceFrom: 2020-01-01
            sources:
              book: A book
            groups:
              HOOD: [POWERED_HOOD, AIRLINE_HOOD]
            rules:
              - code: test.training
                requires: TRAINING
                interfaces: ALL
                term: P1Y
                decision: year.reading
                anchor: EVENT_DAY
                source: book
                clause: page 1
                mark: VERIFIED
            factors:
              - {class: TH1, interfaces: HOOD, factor: 10, source: book, clause: page 2, mark: RESTATED, inForceUntil: 2025-12-31}
              - {class: TH1, interfaces: HOOD, factor: 5, source: book, clause: page 3, mark: VERIFIED, inForceFrom: 2026-01-01}
            fitTests:
              - {interfaces: ALL, reading: OVERALL, level: 100, qualitative: ALLOWED, source: book, clause: page 4, mark: VERIFIED}
            limits:
              - {code: test.oxygen, quantity: OXYGEN_AT_PLACE, interfaces: ALL, atLeast: 19.5, unit: "%", source: book, clause: page 5, mark: VERIFIED}
            retention:
              - {code: test.keep, kinds: [TRAINING], from: RECORD_DAY, span: P5Y, source: book, clause: page 6, mark: VERIFIED}
            decisions:
              - {key: year.reading, form: CHOICE, choices: [anniversary], default: anniversary, mark: VERIFIED, owner: OFFICER, meaning: A year}
            notes:
              - {source: book, clause: page 7, mark: VERIFIED, note: Nothing}
            """;

    @Test
    void readsEveryPart() {
        RuleSet set = parse(GOOD);
        assertThat(set.code()).isEqualTo("test");
        assertThat(set.version()).isEqualTo("2026-1");
        Rule training = set.rules(RequirementKind.TRAINING, InterfaceType.FULL_MASK, day("2026-05-01"))
                .get(0);
        assertThat(training.term()).isEqualTo(new Term(1, Term.Unit.YEARS));
        assertThat(training.anchor()).isEqualTo(Anchor.EVENT_DAY);
        assertThat(training.inclusiveEnd()).isTrue();
        assertThat(training.provenance()).isEqualTo(new Provenance("page 1", "A book", Mark.VERIFIED, null));
    }

    @Test
    void ruleBeginsOnItsFirstDay() {
        RuleSet set = parse(GOOD);
        assertThat(set.rules(RequirementKind.TRAINING, InterfaceType.FULL_MASK, day("2019-12-31")))
                .isEmpty();
        assertThat(set.rules(RequirementKind.TRAINING, InterfaceType.FULL_MASK, day("2020-01-01")))
                .hasSize(1);
    }

    @Test
    void factorChangesOnItsDayAndLeavesThePastAlone() {
        RuleSet set = parse(GOOD);
        assertThat(set.factor("TH1", day("2025-12-31")).orElseThrow().factor()).isEqualByComparingTo("10");
        assertThat(set.factor("TH1", day("2026-01-01")).orElseThrow().factor()).isEqualByComparingTo("5");
        assertThat(set.factor("TH9", day("2026-01-01"))).isEmpty();
        assertThat(set.factor("TH1", day("2019-12-31"))).isEmpty();
    }

    /** Line, field and value lead a person to the place. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "requires: TRAINING|requires: TRAINNIG|rules.file.value|11|requires",
                "interfaces: ALL|interfaces: NOBODY|rules.file.value|12|interfaces",
                "term: P1Y|term: 1 year|rules.file.value|13|term",
                "term: P1Y|term: P0D|rules.file.value|13|term",
                "decision: year.reading|decision: year.raeding|rules.file.reference|10|decision",
                "anchor: EVENT_DAY|ancor: EVENT_DAY|rules.file.missingField|10|anchor",
                "mark: VERIFIED|note: none|rules.file.missingField|10|mark",
                "mark: VERIFIED|mark: TRUE|rules.file.value|18|mark",
                "source: book|source: bok|rules.file.reference|10|source",
                "clause: page 1|clause: page 1\\n    colour: red|rules.file.unknownField|18|colour",
                "clause: page 1|clause: page 1\\n    clause: page 9|rules.file.duplicate|18|clause",
                "factor: 10|factor: 0|rules.file.value|20|factor",
                "factor: 10|factor: ten|rules.file.value|20|factor",
                "inForceUntil: 2025-12-31|inForceUntil: 2026-01-01|rules.file.overlap|21|class",
                "inForceUntil: 2025-12-31|inForceUntil: 2019-12-31|rules.file.value|20|inForceUntil",
                "inForceUntil: 2025-12-31|inForceUntil: 2025-02-29|rules.file.value|20|inForceUntil",
                "atLeast: 19.5|atLeast: 19.5, atMost: 19|rules.file.value|25|atLeast",
                "atLeast: 19.5, ||rules.file.missingField|25|atLeast",
                "span: P5Y, ||rules.file.value|27|span",
                "default: anniversary|default: sometimes|rules.file.value|29|default",
                "key: year.reading|key: year.writing|rules.file.reference|10|decision",
                "inForceFrom: 2020-01-01\\n||rules.file.missingField|1|inForceFrom",
                "kinds: [TRAINING]|kinds: []|rules.file.notList|27|kinds",
                "version: 2026-1|version: [2026-1]|rules.file.notText|2|version",
                "version: 2026-1|version: [2026-1|rules.file.syntax|3|",
                "code: test\\n|- code: test\\n|rules.file.syntax|2|"
            })
    void malformedFileIsRefusedWithLineAndField(String good, String bad, String code, int line, String field) {
        String from = good.replace("\\n", "\n");
        String to = bad == null ? "" : bad.replace("\\n", "\n");
        assertThat(GOOD).contains(from);
        Refused refused = refusal(replaceFirst(GOOD, from, to));
        assertThat(refused.code()).isEqualTo(code);
        assertThat(refused.arguments()[0]).isEqualTo(line);
        if (field != null) {
            assertThat(refused.arguments()[1]).isEqualTo(field);
        }
    }

    @Test
    void ruleGivenTwiceIsRefused() {
        int begin = GOOD.indexOf("  - code: test.training");
        int end = GOOD.indexOf("factors:");
        String rule = GOOD.substring(begin, end);
        Refused refused = refusal(GOOD.substring(0, end) + rule + GOOD.substring(end));
        assertThat(refused.code()).isEqualTo("rules.file.duplicate");
        assertThat(refused.arguments()).containsExactly(19, "code", "test.training");
    }

    @Test
    void emptyAndForeignFilesAreRefused() {
        assertThat(refusal("").code()).isEqualTo("rules.file.syntax");
        assertThat(refusal("just words").code()).isEqualTo("rules.file.notFields");
        assertThat(refusal("a: !!javax.script.ScriptEngineManager [x]").code()).startsWith("rules.file.");
        Refused latin = refusal(GOOD.replace("Nowhere", "España").getBytes(StandardCharsets.ISO_8859_1));
        assertThat(latin.code()).isEqualTo("rules.file.encoding");
    }

    /** One letter changes the hash, line ends do not. */
    @Test
    void hashTellsContentsApart() {
        String hash = parse(GOOD).hash();
        assertThat(hash).matches("[0-9a-f]{64}");
        assertThat(parse(GOOD.replace("\n", "\r\n")).hash()).isEqualTo(hash);
        assertThat(parse(GOOD.replace("Nowhere", "Nowhera")).hash()).isNotEqualTo(hash);
    }

    private static String replaceFirst(String text, String from, String to) {
        int at = text.indexOf(from);
        return text.substring(0, at) + to + text.substring(at + from.length());
    }

    private static Refused refusal(String text) {
        return refusal(text.getBytes(StandardCharsets.UTF_8));
    }

    private static Refused refusal(byte[] bytes) {
        return catchThrowableOfType(Refused.class, () -> RuleSetFile.parse(new ByteArrayInputStream(bytes)));
    }

    private static RuleSet parse(String text) {
        try {
            return RuleSetFile.parse(new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)));
        } catch (IOException impossible) {
            throw new UncheckedIOException(impossible);
        }
    }

    private static LocalDate day(String text) {
        return LocalDate.parse(text);
    }
}
