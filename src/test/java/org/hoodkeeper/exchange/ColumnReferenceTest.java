package org.hoodkeeper.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.ResourceBundle;
import org.junit.jupiter.api.Test;

/** The page that explains the columns, as a file for those who prepare data. Run with -Dcolumns.write=true to write it anew. */
class ColumnReferenceTest {

    private static final Path FILE = Path.of("demo-data/COLUMNS.md");

    @Test
    void theReferenceSaysWhatTheImportTakes() throws IOException {
        String expected = markdown(Locale.ROOT);
        if (Boolean.getBoolean("columns.write")) {
            Files.createDirectories(FILE.getParent());
            Files.writeString(FILE, expected, StandardCharsets.UTF_8);
        }
        assertThat(Files.readString(FILE, StandardCharsets.UTF_8)).isEqualTo(expected);
    }

    @Test
    void everyColumnIsExplainedInBothLanguages() {
        for (Locale locale : new Locale[] {Locale.ROOT, Locale.forLanguageTag("es")}) {
            ResourceBundle words = words(locale);
            for (FileKind kind : FileKind.values()) {
                assertThat(words.containsKey("exchange.kind." + kind.name()))
                        .as(kind.name())
                        .isTrue();
                for (ColumnLine line : kind.lines()) {
                    assertThat(meaning(words, line))
                            .as(kind + " " + line.name())
                            .isNotBlank();
                    assertThat(words.getString(line.formKey())).isNotBlank();
                }
            }
        }
    }

    private static String markdown(Locale locale) {
        ResourceBundle words = words(locale);
        StringBuilder text = new StringBuilder("""
                # Columns of the files

                Comma-separated values as in RFC 4180, UTF-8, the first row names the columns in any order. A file is taken
                whole or not at all. Files name what stands in files before them, in the order below.

                A time has its offset (`2026-11-25T09:30+00:00`, `2026-11-25T09:30Z`). A day alone (`2026-11-25`): evidence
                counts from the start of the next day, unless the site decided otherwise (`evidence.date-only`); what takes a
                clearance away (a hold, a defect, a failure, a fitted part) and what begins with a first day (postings, models,
                limits, decisions) counts from the start of its own day.

                A text that a spreadsheet could take for a formula may have an apostrophe in front; it is taken off.
                """);
        for (FileKind kind : FileKind.values()) {
            text.append("\n## ")
                    .append(kind.slug())
                    .append(".csv: ")
                    .append(words.getString("exchange.kind." + kind.name()));
            text.append("\n\n");
            if (words.containsKey("exchange.kind." + kind.name() + ".about")) {
                text.append(words.getString("exchange.kind." + kind.name() + ".about"))
                        .append("\n\n");
            }
            text.append("| column | must be filled | written as | meaning |\n|---|---|---|---|\n");
            for (ColumnLine line : kind.lines()) {
                text.append("| `").append(line.name()).append("` | ").append(line.isRequired() ? "yes" : "");
                text.append(" | ").append(words.getString(line.formKey()).replace("|", "\\|"));
                if (!line.choices().isEmpty()) {
                    text.append(": ").append(String.join(", ", line.choices()));
                }
                text.append(" | ").append(meaning(words, line)).append(" |\n");
            }
        }
        return text.toString();
    }

    private static ResourceBundle words(Locale locale) {
        return ResourceBundle.getBundle(
                "messages/exchange",
                locale,
                ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
    }

    private static String meaning(ResourceBundle words, ColumnLine line) {
        return line.meaningKeys().stream()
                .filter(words::containsKey)
                .findFirst()
                .map(words::getString)
                .orElse("");
    }
}
