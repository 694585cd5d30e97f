package org.hoodkeeper.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.hoodkeeper.kernel.Refused;
import org.junit.jupiter.api.Test;

/** The corners of RFC 4180 that files from outside have. */
class CsvRowsTest {

    @Test
    void quotesLineEndsAndEmbeddedLinesAreRead() throws IOException {
        assertThat(rows("a,b\r\n\"x, \"\"y\"\"\",\"two\r\nlines\"\r\nlast,row\r\n"))
                .containsExactly("2:x, \"y\"|two\r\nlines", "3:last|row");
    }

    @Test
    void aByteOrderMarkAndAnEmptyLastLineSayNothing() throws IOException {
        assertThat(rows("\ufeffa,b\n1,2\n\n")).containsExactly("2:1|2");
        assertThat(new CsvRows(stream("\ufeffa,b\n")).header()).containsExactly("a", "b");
    }

    @Test
    void aMissingLineEndAtTheEndIsNoMatter() throws IOException {
        assertThat(rows("a\n1")).containsExactly("2:1");
    }

    @Test
    void rowsAreCountedAsASpreadsheetShowsThem() throws IOException {
        assertThat(rows("a\n\"1\n1\"\n\n2\n")).containsExactly("2:1\n1", "4:2");
    }

    @Test
    void quotesThatDoNotMatchAreRefusedWithTheirRow() {
        refused("a,b\n1,2\n\"3,4\n", "exchange.file.quotes", 3L);
        refused("a,b\n1,\"2\"x\n", "exchange.file.quotes", 2L);
        refused("a,b\n1,2\"x\"\n", "exchange.file.quotes", 2L);
        refused("a,b\n1,\u0000\n", "exchange.file.quotes", 2L);
    }

    @Test
    void anotherEncodingIsRefused() {
        assertThatThrownBy(() -> all(
                        new CsvRows(new ByteArrayInputStream("a\nMu\u00f1oz\n".getBytes(StandardCharsets.ISO_8859_1)))))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.code()).isEqualTo("exchange.file.encoding"));
    }

    @Test
    void anEmptyFileIsRefused() {
        assertThatThrownBy(() -> rows("")).hasMessageContaining("exchange.file.empty");
    }

    private static void refused(String text, String code, long row) {
        assertThatThrownBy(() -> rows(text)).isInstanceOfSatisfying(Refused.class, refused -> {
            assertThat(refused.code()).isEqualTo(code);
            assertThat(refused.arguments()).containsExactly(row);
        });
    }

    private static List<String> rows(String text) throws IOException {
        return all(new CsvRows(stream(text)));
    }

    private static List<String> all(CsvRows rows) {
        List<String> all = new ArrayList<>();
        for (List<String> cells = rows.next(); cells != null; cells = rows.next()) {
            all.add(rows.row() + ":" + String.join("|", cells));
        }
        return all;
    }

    private static ByteArrayInputStream stream(String text) {
        return new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8));
    }
}
