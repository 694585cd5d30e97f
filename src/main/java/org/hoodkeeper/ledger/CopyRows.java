package org.hoodkeeper.ledger;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.postgresql.PGConnection;
import org.postgresql.copy.PGCopyInputStream;

/**
 * A query's rows as PostgreSQL's binary COPY sends them, without an object for each value: a whole record of millions of rows
 * is hashed as fast as it can be read. The layout is that of the manual's chapter on COPY, "Binary Format".
 */
final class CopyRows implements AutoCloseable {

    private static final int HEADER = 19;
    private static final int FIRST_SIZE = 1 << 16;
    /** Microseconds from 1970 to 2000, where PostgreSQL begins to count. */
    private static final long EPOCH_2000 = 946_684_800_000_000L;

    private final InputStream in;
    private byte[] buffer = new byte[FIRST_SIZE];
    private int at;
    private int end;
    private final int[] offsets;
    private final int[] lengths;

    /** @param query without parameters: whatever stands in it comes from ids and numbers of our own */
    CopyRows(Connection connection, String query, int columns) throws SQLException, IOException {
        this.in = new PGCopyInputStream(
                connection.unwrap(PGConnection.class), "copy (" + query + ") to stdout (format binary)");
        this.offsets = new int[columns];
        this.lengths = new int[columns];
        ensure(HEADER);
        int extension = int32(at + HEADER - 4);
        ensure(HEADER + extension);
        at += HEADER + extension;
    }

    /** Goes to the next row. @return false after the last */
    boolean next() throws IOException {
        ensure(2);
        int fields = int16(at);
        if (fields < 0) {
            return false;
        }
        if (fields != offsets.length) {
            throw new IllegalStateException("a row of " + fields + " columns, not " + offsets.length);
        }
        int cursor = 2;
        for (int i = 0; i < fields; i++) {
            ensure(cursor + 4);
            int length = int32(at + cursor);
            cursor += 4;
            lengths[i] = length;
            offsets[i] = cursor;
            if (length > 0) {
                ensure(cursor + length);
                cursor += length;
            }
        }
        for (int i = 0; i < fields; i++) {
            offsets[i] += at;
        }
        at += cursor;
        return true;
    }

    boolean isNull(int column) {
        return lengths[column] < 0;
    }

    byte[] buffer() {
        return buffer;
    }

    int offset(int column) {
        return offsets[column];
    }

    int length(int column) {
        return lengths[column];
    }

    byte[] bytes(int column) {
        byte[] copy = new byte[Math.max(0, lengths[column])];
        System.arraycopy(buffer, offsets[column], copy, 0, copy.length);
        return copy;
    }

    boolean sameBytes(int column, byte[] other) {
        return lengths[column] == other.length
                && java.util.Arrays.equals(
                        buffer, offsets[column], offsets[column] + lengths[column], other, 0, other.length);
    }

    int int16Of(int column) {
        return int16(offsets[column]);
    }

    int int32Of(int column) {
        return int32(offsets[column]);
    }

    long int64Of(int column) {
        return int64(offsets[column]);
    }

    /** Microseconds since 1970. */
    long microsOf(int column) {
        return int64(offsets[column]) + EPOCH_2000;
    }

    boolean bool(int column) {
        return buffer[offsets[column]] != 0;
    }

    @Nullable UUID uuid(int column) {
        return isNull(column) ? null : new UUID(int64(offsets[column]), int64(offsets[column] + 8));
    }

    private int int16(int from) {
        return (short) ((buffer[from] & 0xff) << 8 | buffer[from + 1] & 0xff);
    }

    private int int32(int from) {
        return (buffer[from] & 0xff) << 24
                | (buffer[from + 1] & 0xff) << 16
                | (buffer[from + 2] & 0xff) << 8
                | buffer[from + 3] & 0xff;
    }

    private long int64(int from) {
        return (long) int32(from) << 32 | int32(from + 4) & 0xffffffffL;
    }

    /** Makes sure that so many bytes from {@code at} on are in the buffer; offsets of the current row stay relative to it. */
    private void ensure(int needed) throws IOException {
        if (at + needed <= end) {
            return;
        }
        if (at > 0) {
            System.arraycopy(buffer, at, buffer, 0, end - at);
            end -= at;
            at = 0;
        }
        if (needed > buffer.length) {
            buffer = java.util.Arrays.copyOf(buffer, Math.max(needed, buffer.length * 2));
        }
        while (end < needed) {
            int read = in.read(buffer, end, buffer.length - end);
            if (read < 0) {
                throw new IOException("the database broke off in the middle of a row");
            }
            end += read;
        }
    }

    @Override
    public void close() {
        try {
            in.close();
        } catch (IOException gone) {
            throw new UncheckedIOException(gone);
        }
    }
}
