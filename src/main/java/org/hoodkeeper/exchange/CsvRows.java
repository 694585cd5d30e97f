package org.hoodkeeper.exchange;

import java.io.BufferedReader;
import java.io.FilterReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PushbackInputStream;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Iterator;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.hoodkeeper.kernel.Refused;
import org.jspecify.annotations.Nullable;

/**
 * The rows of a file, one after the other: RFC 4180, UTF-8, with or without a byte order mark. Rows are counted as a spreadsheet
 * shows them: the header is row 1.
 */
final class CsvRows implements AutoCloseable {

    /** Longest file a person can look at in one row: a cell beyond it is a quote that was never closed. */
    private static final int LONGEST_CELL = 20_000;

    private final CSVParser parser;
    private final Iterator<CSVRecord> rows;
    private final List<String> header;
    private long row = 1;

    /** @throws Refused {@code exchange.file.…} when it is no such file */
    CsvRows(InputStream file) throws IOException {
        // what is not UTF-8 becomes the replacement sign, which no sound text holds: so its row is known
        Reader text = new BufferedReader(new InputStreamReader(withoutMark(file), StandardCharsets.UTF_8));
        // as RFC 4180 has it, but an empty line is a row that says nothing: only the last may be one
        CSVFormat format =
                CSVFormat.RFC4180.builder().setIgnoreEmptyLines(false).get();
        parser = CSVParser.builder()
                .setReader(new StrictQuotes(text))
                .setFormat(format)
                .get();
        rows = parser.iterator();
        List<String> first = next();
        if (first == null) {
            throw new Refused("exchange.file.empty");
        }
        header = first.stream().map(String::strip).toList();
    }

    private static InputStream withoutMark(InputStream file) throws IOException {
        PushbackInputStream from = new PushbackInputStream(file, 3);
        byte[] start = from.readNBytes(3);
        boolean mark = start.length == 3
                && (start[0] & 0xff) == 0xef
                && (start[1] & 0xff) == 0xbb
                && (start[2] & 0xff) == 0xbf;
        if (!mark) {
            from.unread(start);
        }
        return from;
    }

    List<String> header() {
        return header;
    }

    /** The number of the row read last. */
    long row() {
        return row;
    }

    /**
     * The next row that says anything, or null after the last.
     *
     * @throws Refused {@code exchange.file.quotes}, {@code exchange.file.encoding}, {@code exchange.file.control}
     */
    @Nullable List<String> next() {
        try {
            while (rows.hasNext()) {
                CSVRecord record = rows.next();
                row = record.getRecordNumber();
                if (record.size() > 1 || !record.get(0).isEmpty()) {
                    return record.toList();
                }
            }
            return null;
        } catch (UncheckedIOException broken) {
            throw refused(broken, parser.getRecordNumber() + 1);
        }
    }

    private static Refused refused(Throwable broken, long row) {
        for (Throwable cause = broken; cause != null; cause = cause.getCause()) {
            if (cause instanceof Broken known) {
                return new Refused(known.code, known.row);
            }
        }
        return new Refused("exchange.file.quotes", row);
    }

    @Override
    public void close() throws IOException {
        parser.close();
    }

    /** Where the text is no such file. */
    private static final class Broken extends IOException {

        private static final long serialVersionUID = 1;

        private final String code;
        private final long row;

        Broken(String code, long row) {
            super(code);
            this.code = code;
            this.row = row;
        }
    }

    /**
     * Refuses what the parser would let pass, or would report without its row: quotes that do not match, cells without end,
     * signs that no text holds.
     */
    private static final class StrictQuotes extends FilterReader {

        private static final char REPLACEMENT = '\ufffd';

        private boolean inQuotes;
        private boolean atStart = true;
        private boolean quoted;
        private boolean afterReturn;
        private int length;
        private long row = 1;

        StrictQuotes(Reader from) {
            super(from);
        }

        @Override
        public int read() throws IOException {
            int sign = super.read();
            if (sign < 0) {
                end();
            } else {
                see((char) sign);
            }
            return sign;
        }

        @Override
        public int read(char[] into, int offset, int most) throws IOException {
            int count = super.read(into, offset, most);
            if (count < 0) {
                end();
            }
            for (int i = 0; i < count; i++) {
                see(into[offset + i]);
            }
            return count;
        }

        private void end() throws IOException {
            if (inQuotes) {
                throw quotes();
            }
        }

        private void see(char sign) throws IOException {
            boolean lineFeedOfPair = afterReturn && sign == '\n';
            afterReturn = false;
            if (sign == '"') {
                if (!atStart && !quoted) {
                    throw quotes();
                }
                quoted = true;
                inQuotes = !inQuotes;
                atStart = false;
            } else if (!inQuotes && (sign == ',' || sign == '\n' || sign == '\r')) {
                row += sign == ',' || lineFeedOfPair ? 0 : 1;
                afterReturn = sign == '\r';
                atStart = true;
                quoted = false;
                length = 0;
            } else {
                inside(sign);
            }
        }

        private void inside(char sign) throws IOException {
            if (sign == REPLACEMENT) {
                throw new Broken("exchange.file.encoding", row);
            }
            if (quoted && !inQuotes || sign == 0 || ++length > LONGEST_CELL) {
                throw quotes();
            }
            atStart = false;
        }

        private Broken quotes() {
            return new Broken("exchange.file.quotes", row);
        }
    }
}
