package org.hoodkeeper.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.io.IOException;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.text.MessageFormat;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Properties;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hoodkeeper.facts.Kind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** All text lives in the bundles, in both languages, and every key that is used is there. */
class WordsTest {

    static final Path MESSAGES = Path.of("src/main/resources/messages");
    static final Path TEMPLATES = Path.of("src/main/resources/templates");
    static final Path SOURCES = Path.of("src/main/java");

    static final Pattern REFUSED = Pattern.compile("\\b(?:Refused|NotFound)\\(\\s*\"([A-Za-z0-9.]+)\"");
    static final Pattern REJECTED = Pattern.compile("\\breject(?:Value)?\\((?:\\s*\"\\w*\",)?\\s*\"([A-Za-z0-9.]+)\"");
    static final Pattern FORM = Pattern.compile("new (?:Desk)?Sheet\\(\\s*\"(\\w+)\"");
    static final Pattern IN_TEMPLATE =
            Pattern.compile("#\\{([A-Za-z][A-Za-z0-9_.-]*)[}(]|#messages\\.msg\\('([A-Za-z0-9_.-]+)'");

    @Test
    void everyFileHasItsSpanishTwinWithTheSameKeys() {
        assertThat(files(MESSAGES, ".properties").map(Path::getFileName).map(Path::toString))
                .filteredOn(name -> !name.contains("_"))
                .isNotEmpty()
                .allSatisfy(name -> {
                    Set<String> english = keys(MESSAGES.resolve(name));
                    Set<String> spanish = keys(MESSAGES.resolve(name.replace(".properties", "_es.properties")));
                    assertThat(english).as("keys of %s", name).isEqualTo(spanish);
                });
        assertThat(files(MESSAGES, "_es.properties"))
                .allSatisfy(file -> assertThat(Path.of(file.toString().replace("_es.", ".")))
                        .exists());
    }

    /** The replacement comes first, and a condition on the same tag decides nothing. */
    @Test
    void noConditionStandsBesideAReplacement() {
        Pattern tag = Pattern.compile("<[a-zA-Z:]+(?:\\s+[\\w:.-]+(?:=\"[^\"]*\")?)*\\s*/?>");
        List<String> beside = new ArrayList<>();
        files(TEMPLATES, ".html")
                .forEach(file -> tag.matcher(read(file))
                        .results()
                        .map(MatchResult::group)
                        .filter(one ->
                                one.contains("th:replace=") && (one.contains("th:if=") || one.contains("th:unless=")))
                        .forEach(one -> beside.add(file + ": " + one)));
        assertThat(beside).isEmpty();
    }

    /** A record is read back in words on the page of records, in a correction and in an incident file. */
    @Test
    void everyAnswerOfARecordHasItsWords() {
        Set<String> known = files(MESSAGES, ".properties")
                .filter(file -> !file.toString().contains("_es."))
                .flatMap(file -> keys(file).stream())
                .collect(Collectors.toSet());
        assertThat(Stream.of(Kind.values())
                        .flatMap(kind -> Stream.of(kind.type().getRecordComponents()))
                        .filter(component -> component.getType().isEnum())
                        .flatMap(component -> Stream.of(component.getType().getEnumConstants()))
                        .map(constant -> Words.kindKey((Enum<?>) constant)))
                .isNotEmpty()
                .isSubsetOf(known);
    }

    /** The page after a record says what comes next, whatever was recorded. */
    @Test
    void everyKindSaysWhatIsNext() {
        assertThat(all("").stringPropertyNames())
                .containsAll(Stream.of(Kind.values())
                        .map(kind -> "told.next." + kind)
                        .toList());
    }

    /** The page to look the answers over asks a question and names what its button does. */
    @Test
    void everyFormHasTheWordsOfItsCheckPage() {
        List<String> forms = found(FORM, SOURCES, ".java");
        assertThat(forms).contains("batteryTest", "newGuideStep", "acceptance");
        assertThat(all("").stringPropertyNames())
                .containsAll(forms.stream()
                        .flatMap(form -> Stream.of(form + ".check", form + ".record"))
                        .toList());
    }

    @Test
    void noKeyStandsInTwoFilesOrTwiceInOne() {
        Map<String, List<String>> places = new TreeMap<>();
        files(MESSAGES, ".properties")
                .filter(file -> !file.getFileName().toString().contains("_"))
                .forEach(file -> lines(file).forEach(line -> {
                    int equals = line.indexOf('=');
                    if (equals > 0 && !line.startsWith("#")) {
                        places.computeIfAbsent(line.substring(0, equals).strip(), key -> new ArrayList<>())
                                .add(file.getFileName().toString());
                    }
                }));
        assertThat(places)
                .isNotEmpty()
                .allSatisfy((key, files) -> assertThat(files).as(key).hasSize(1));
    }

    @Test
    void everyMessageCanBeFormattedInBothLanguagesWithTheSameArguments() {
        Properties english = all("");
        Properties spanish = all("_es");
        assertThat(english.stringPropertyNames()).allSatisfy(key -> {
            assertThat(english.getProperty(key)).as(key).doesNotContain("'").isNotBlank();
            assertThat(spanish.getProperty(key)).as(key).doesNotContain("'").isNotBlank();
            assertThat(arguments(english.getProperty(key))).as(key).isEqualTo(arguments(spanish.getProperty(key)));
        });
    }

    @Test
    void noMessageShoutsOrTalksLikeAProgram() {
        Stream.of("", "_es")
                .map(WordsTest::all)
                .forEach(words -> assertThat(words.stringPropertyNames())
                        .allSatisfy(key -> assertThat(words.getProperty(key).toLowerCase(Locale.ROOT))
                                .as(key)
                                .doesNotContain("!", "invalid", "compliant", "inválid", "null", "exception")));
    }

    /** A code that ends in a dot is finished at run time: at least one message begins with it. */
    @Test
    void everyRefusalHasItsWords() {
        Set<String> words = all("").stringPropertyNames();
        List<String> codes = found(REFUSED, SOURCES, ".java");
        assertThat(codes).isNotEmpty();
        assertThat(codes.stream()
                        .filter(code -> code.endsWith(".")
                                ? words.stream().noneMatch(word -> word.startsWith("refused." + code))
                                : !words.contains("refused." + code))
                        .distinct())
                .as("codes of refusals that no file in messages/ has words for")
                .isEmpty();
        assertThat(words)
                .containsAll(found(REJECTED, SOURCES, ".java").stream()
                        .filter(code -> !code.endsWith("."))
                        .toList());
    }

    @Test
    void everyKeyInATemplateHasItsWords() {
        assertThat(all("").stringPropertyNames()).containsAll(found(IN_TEMPLATE, TEMPLATES, ".html"));
        assertThat(found(IN_TEMPLATE, TEMPLATES, ".html")).contains("form.errors.title", "verdict.noEnd");
    }

    /** An enum that has words for one constant has them for each, and has no words for a constant that is gone. */
    @Test
    void everyKindNamedHasAllItsConstants() {
        Map<String, Set<String>> named = all("").stringPropertyNames().stream()
                .filter(key -> key.startsWith("kinds."))
                .map(key -> key.split("\\."))
                .collect(Collectors.groupingBy(
                        parts -> parts[1],
                        TreeMap::new,
                        Collectors.mapping(parts -> parts[2], Collectors.toCollection(TreeSet::new))));
        Map<String, Set<String>> enums = new ClassFileImporter()
                .withImportOption(new ImportOption.DoNotIncludeTests()).importPackages("org.hoodkeeper").stream()
                        .filter(type -> type.isEnum() && named.containsKey(kind(type)))
                        .collect(Collectors.toMap(
                                WordsTest::kind,
                                type -> Stream.of(type.reflect().getEnumConstants())
                                        .map(constant -> ((Enum<?>) constant).name())
                                        .collect(Collectors.toCollection(TreeSet::new)),
                                (one, two) -> {
                                    throw new AssertionError("two enums of one name: " + one + " " + two);
                                },
                                TreeMap::new));
        assertThat(named).isNotEmpty().isEqualTo(enums);
    }

    /** As {@link Words#kindKey} calls it: a type inside another one goes by both names. */
    static String kind(JavaClass type) {
        return type.getEnclosingClass().map(JavaClass::getSimpleName).orElse("") + type.getSimpleName();
    }

    @Test
    void noTemplateHoldsTextOfItsOwn() {
        assertThat(files(TEMPLATES, ".html"))
                .isNotEmpty()
                .allSatisfy(file -> assertThat(LiteralText.in(read(file)))
                        .as(file.toString())
                        .isEmpty());
    }

    @Test
    void everyPageBringsItsDoctypeAndTheLayout() {
        assertThat(files(TEMPLATES, ".html").filter(file -> !file.toString().contains("fragments")))
                .isNotEmpty()
                .allSatisfy(file -> assertThat(read(file))
                        .as(file.toString())
                        .startsWith("<!doctype html>")
                        .contains("~{fragments/layout :: page("));
    }

    @Test
    void noTemplateHoldsScriptOrStyle() {
        assertThat(files(TEMPLATES, ".html"))
                .allSatisfy(file -> assertThat(read(file).toLowerCase(Locale.ROOT))
                        .as(file.toString())
                        .doesNotContainPattern(
                                "<style|\\sstyle\\s*=|th:style|<script(?![^>]*src=)|\\son[a-z]+\\s*=|th:on|th:utext"));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "<p>Hello</p>",
                "<p>one <b th:text=\"#{a.b}\"></b> two</p>",
                "<a th:href=\"@{/}\" title=\"Home\"></a>",
                "<input type=\"submit\" value=\"Send\">",
                "<p th:text=\"'Hello'\"></p>",
                "<p th:text=\"|Hello ${name}|\"></p>",
                "<p th:text=\"${ok} ? 'Yes' : 'No'\"></p>",
                "<p translate=\"no\">Hoodkeeper</p><p>Hello</p>",
                "<p>[[#{a.b}]] more</p>"
            })
    void literalTextIsFound(String template) {
        assertThat(LiteralText.in(template)).isNotEmpty();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "<p th:text=\"#{a.b}\"></p>",
                "<p translate=\"no\">Hoodkeeper <b>1</b></p>",
                "<p>1 / 2 – 3</p>",
                "<!--/* words of ours */--><p></p><!-- kept <b>note</b> -->",
                "<p>[[#{a.b(${c})}]]</p>",
                "<p th:classappend=\"${bad ? 'bad' : ''}\" th:text=\"${x == 'MET'} ? #{a.b} : #{a.c}\"></p>"
            })
    void whatIsNoTextOfItsOwnIsLeftAlone(String template) {
        assertThat(LiteralText.in(template)).isEmpty();
    }

    @Test
    void missingRefusalsWouldBeFound() {
        assertThat(matches(REFUSED, "throw new Refused(\n \"kit.gone\", id); new NotFound(\"kit.none\")"))
                .containsExactly("kit.gone", "kit.none");
        assertThat(matches(REJECTED, "form.rejectValue(\"at\", \"time.odd\"); form.reject(\"all.odd\")"))
                .containsExactly("time.odd", "all.odd");
        assertThat(matches(IN_TEMPLATE, "#{a.b} #{c.d(${e})} #{__${f}__} #messages.msg('g.h')"))
                .containsExactly("a.b", "c.d", "g.h");
    }

    static Set<Object> arguments(String message) {
        new MessageFormat(message, Locale.ENGLISH);
        return Pattern.compile("\\{(\\d+)")
                .matcher(message)
                .results()
                .map(result -> result.group(1))
                .collect(Collectors.toSet());
    }

    static List<String> found(Pattern pattern, Path folder, String ending) {
        return files(folder, ending)
                .flatMap(file -> matches(pattern, LiteralText.withoutComments(read(file))).stream())
                .toList();
    }

    static List<String> matches(Pattern pattern, String text) {
        return pattern.matcher(text).results().map(WordsTest::group).toList();
    }

    static String group(MatchResult result) {
        String first = result.group(1);
        return first != null ? first : result.group(2);
    }

    static Properties all(String language) {
        Properties together = new Properties();
        files(MESSAGES, ".properties")
                .filter(file -> file.getFileName().toString().contains("_") != language.isEmpty())
                .forEach(file -> together.putAll(properties(file)));
        return together;
    }

    static Set<String> keys(Path file) {
        return new TreeSet<>(properties(file).stringPropertyNames());
    }

    static Properties properties(Path file) {
        Properties properties = new Properties();
        try (Reader reader = Files.newBufferedReader(file)) {
            properties.load(reader);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return properties;
    }

    static Stream<Path> files(Path folder, String ending) {
        try (Stream<Path> all = Files.walk(folder)) {
            return all.filter(file -> file.toString().endsWith(ending)).sorted().toList().stream();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static List<String> lines(Path file) {
        return read(file).lines().toList();
    }

    static String read(Path file) {
        try {
            return Files.readString(file);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
