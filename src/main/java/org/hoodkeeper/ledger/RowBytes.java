package org.hoodkeeper.ledger;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;

/**
 * The same bytes as {@link Digest} hashes, put together from the database's own spelling of the values. Used again for each row.
 */
final class RowBytes {

    private static final byte[] HEX = "0123456789abcdef".getBytes(StandardCharsets.US_ASCII);
    private static final int MOST_DIGITS = 20;

    private final MessageDigest sha256;
    private final byte[] digits = new byte[MOST_DIGITS];
    private byte[] bytes = new byte[1 << 12];
    private int length;

    RowBytes() {
        try {
            sha256 = MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException missing) {
            throw new IllegalStateException("every Java runtime has SHA-256", missing);
        }
    }

    /** A field's name as it stands before the value's length. */
    static byte[] name(String name) {
        return (name + ':').getBytes(StandardCharsets.UTF_8);
    }

    /** What a hash of that form begins with. */
    static byte[] form(String form) {
        return ("form:" + form.getBytes(StandardCharsets.UTF_8).length + '=' + form).getBytes(StandardCharsets.UTF_8);
    }

    RowBytes begin(byte[] form) {
        length = 0;
        add(form, 0, form.length);
        return this;
    }

    RowBytes uuid(byte[] name, byte[] from, int offset) {
        head(name, 36);
        for (int i = 0; i < 16; i++) {
            if (i == 4 || i == 6 || i == 8 || i == 10) {
                bytes[length++] = '-';
            }
            bytes[length++] = HEX[(from[offset + i] >> 4) & 15];
            bytes[length++] = HEX[from[offset + i] & 15];
        }
        return this;
    }

    RowBytes uuid(byte[] name, CopyRows rows, int column) {
        return rows.isNull(column) ? this : uuid(name, rows.buffer(), rows.offset(column));
    }

    RowBytes number(byte[] name, long value) {
        int at = MOST_DIGITS;
        long rest = Math.abs(value);
        do {
            digits[--at] = (byte) ('0' + rest % 10);
            rest /= 10;
        } while (rest > 0);
        if (value < 0) {
            digits[--at] = '-';
        }
        head(name, MOST_DIGITS - at);
        add(digits, at, MOST_DIGITS - at);
        return this;
    }

    RowBytes micros(byte[] name, CopyRows rows, int column) {
        return rows.isNull(column) ? this : number(name, rows.microsOf(column));
    }

    /** Text, JSON and bytes as they are. */
    RowBytes raw(byte[] name, CopyRows rows, int column) {
        return rows.isNull(column) ? this : raw(name, rows.buffer(), rows.offset(column), rows.length(column));
    }

    RowBytes raw(byte[] name, byte[] from) {
        return raw(name, from, 0, from.length);
    }

    RowBytes raw(byte[] name, byte[] from, int offset, int count) {
        head(name, count);
        add(from, offset, count);
        return this;
    }

    byte[] hash() {
        sha256.update(bytes, 0, length);
        return sha256.digest();
    }

    private void head(byte[] name, int count) {
        room(name.length + 12 + count);
        System.arraycopy(name, 0, bytes, length, name.length);
        length += name.length;
        int start = length;
        int rest = count;
        do {
            bytes[length++] = (byte) ('0' + rest % 10);
            rest /= 10;
        } while (rest > 0);
        for (int i = start, j = length - 1; i < j; i++, j--) {
            byte swap = bytes[i];
            bytes[i] = bytes[j];
            bytes[j] = swap;
        }
        bytes[length++] = '=';
    }

    private void add(byte[] from, int offset, int count) {
        room(count);
        System.arraycopy(from, offset, bytes, length, count);
        length += count;
    }

    private void room(int more) {
        if (length + more > bytes.length) {
            bytes = Arrays.copyOf(bytes, Math.max(length + more, bytes.length * 2));
        }
    }
}
