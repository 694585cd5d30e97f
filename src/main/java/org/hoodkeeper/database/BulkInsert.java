package org.hoodkeeper.database;

import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.HexFormat;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.postgresql.PGConnection;
import org.springframework.jdbc.core.ConnectionCallback;
import org.springframework.jdbc.core.JdbcTemplate;

/**
 * Many rows by COPY, in the caller's transaction. PostgreSQL copies into no table with row security, so the rows go into a
 * temporary twin and move on from there; the site's policy sees every one of them.
 */
public final class BulkInsert {

    /** Rows held in memory before they go. */
    private static final int AT_ONCE = 5_000;

    private final JdbcTemplate jdbc;
    private final String table;
    private final String twin;
    private final String columns;
    private final StringBuilder lines = new StringBuilder();
    private int held;
    private boolean made;

    /** @param table and columns are names in this program's own text, never what somebody typed */
    public BulkInsert(JdbcTemplate jdbc, String table, List<String> columns) {
        this.jdbc = jdbc;
        this.table = table;
        this.twin = "bulk_" + table;
        this.columns = String.join(", ", columns);
    }

    /** One row; the values in the order of the columns: text, numbers, ids, instants, bytes. */
    public void add(@Nullable Object... values) {
        for (int i = 0; i < values.length; i++) {
            lines.append(i == 0 ? "" : "\t").append(text(values[i]));
        }
        lines.append('\n');
        if (++held == AT_ONCE) {
            flush();
        }
    }

    /** Sends what is held. To be called once after the last row. */
    public void flush() {
        if (held == 0) {
            return;
        }
        if (!made) {
            jdbc.execute("create temporary table if not exists " + twin + " on commit drop as select " + columns
                    + " from " + table + " with no data");
            made = true;
        }
        jdbc.execute((ConnectionCallback<Long>) connection -> {
            try {
                return connection
                        .unwrap(PGConnection.class)
                        .getCopyAPI()
                        .copyIn("copy " + twin + " (" + columns + ") from stdin", new StringReader(lines.toString()));
            } catch (IOException never) {
                throw new UncheckedIOException(never);
            }
        });
        jdbc.update("insert into " + table + " (" + columns + ") select " + columns + " from " + twin);
        jdbc.execute("truncate " + twin);
        lines.setLength(0);
        held = 0;
    }

    private static String text(@Nullable Object value) {
        if (value == null) {
            return "\\N";
        }
        if (value instanceof byte[] bytes) {
            return "\\\\x" + HexFormat.of().formatHex(bytes);
        }
        return value.toString()
                .replace("\\", "\\\\")
                .replace("\t", "\\t")
                .replace("\n", "\\n")
                .replace("\r", "\\r");
    }
}
