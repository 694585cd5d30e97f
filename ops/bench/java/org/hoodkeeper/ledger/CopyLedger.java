package org.hoodkeeper.ledger;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.hoodkeeper.facts.Kind;
import org.hoodkeeper.kernel.RecordId;
import org.hoodkeeper.kernel.SiteId;
import org.jspecify.annotations.Nullable;
import org.postgresql.copy.CopyIn;
import org.postgresql.core.BaseConnection;

/**
 * Writes entries of a made-up past straight into the ledger's tables through COPY, one connection a table, with the hashes and
 * seals that the service itself would have made: the chain's check passes over them. For benchmarks only: it says itself when
 * the site was told, which nobody may in earnest.
 */
public final class CopyLedger implements AutoCloseable {

    /** Entries of a run: a site of that size is told some twenty things between two seals on a busy morning. */
    private static final int RUN = 20;

    private final SiteId site;
    private final UUID account;
    private final Stream entries;
    private final Stream records;
    private final Stream hidden;
    private final Stream seals;
    private final SplittableRandom random;
    private Instant last = Instant.EPOCH;
    private long lastMillis;
    private int counter;
    private byte[] seal = Sealer.BEGINNING;
    private final List<UUID> run = new ArrayList<>();
    private final ByteArrayOutputStream marks = new ByteArrayOutputStream();
    private Instant runFrom = Instant.EPOCH;
    private long position;
    private long count;

    /** @param superuser gives connections past foreign keys and row security */
    public CopyLedger(SiteId site, UUID account, long seed, Callable<Connection> superuser) throws Exception {
        this.site = site;
        this.account = account;
        this.random = new SplittableRandom(seed);
        entries = new Stream(
                superuser,
                "ledger_entry (site_id, id, recorded_at, written_at, account_id, via, records, records_digest, hash)");
        records = new Stream(superuser, "ledger_record (" + String.join(", ", Ledger.RECORD_COLUMNS) + ")");
        hidden = new Stream(superuser, "ledger_private (site_id, record_id, salt, content)");
        seals = new Stream(superuser, "ledger_seal (site_id, position, entries, marks, recorded_from, recorded_until, hash, sealed_at)");
    }

    public long count() {
        return count;
    }

    public long entries() {
        return position;
    }

    /** An id of version 7 that lies after every id before it. */
    public UUID id(Instant at) {
        long millis = Math.max(at.toEpochMilli(), lastMillis);
        counter = millis == lastMillis ? counter + 1 : 0;
        if (counter == 4096) {
            millis++;
            counter = 0;
        }
        lastMillis = millis;
        return new UUID(millis << 16 | 0x7000L | counter, 0x8000000000000000L | random.nextLong() >>> 2);
    }

    /** Told together as one entry. @param wanted not before the entry before it; moved on by a microsecond where it is */
    public List<RecordId> tell(Instant wanted, Author.Via how, List<Draft> drafts, boolean withdrawal) {
        Instant at = wanted.truncatedTo(ChronoUnit.MICROS);
        at = at.isAfter(last) ? at : last.plus(1, ChronoUnit.MICROS);
        last = at;
        String via = how.name().toLowerCase(Locale.ROOT);
        UUID entry = id(at);
        List<RecordId> ids = new ArrayList<>(drafts.size());
        Digest digest = Ledger.recordsDigest();
        for (Draft draft : drafts) {
            Row row = row(draft, at, entry, withdrawal);
            byte[] hash = row.hash();
            digest.bytes("record", hash);
            write(row, hash);
            ids.add(new RecordId(row.id()));
        }
        byte[] recordsDigest = digest.value();
        byte[] hash = Ledger.entryHash(site.value(), entry, at, account, via, ids.size(), recordsDigest);
        entries.line(site.value(), entry, at, at, account, via, ids.size(), recordsDigest, hash);
        seal = Sealer.next(seal, ++position, hash);
        run.add(entry);
        marks.write(hash, 0, Sealer.MARK);
        runFrom = run.size() == 1 ? at : runFrom;
        if (run.size() == RUN) {
            seal();
        }
        return ids;
    }

    private void seal() {
        if (run.isEmpty()) {
            return;
        }
        String members = run.stream().map(UUID::toString).collect(Collectors.joining(",", "{", "}"));
        seals.line(site.value(), position, members, marks.toByteArray(), runFrom, last, seal, last.plusMillis(700));
        run.clear();
        marks.reset();
    }

    private Row row(Draft draft, Instant at, UUID entry, boolean withdrawal) {
        Kind kind = Kind.of(draft.fact());
        UUID id = id(at);
        String content = FactJson.hidden(draft.fact(), draft.because());
        byte[] privateDigest = null;
        if (content != null) {
            byte[] salt = new byte[16];
            random.nextBytes(salt);
            privateDigest = Ledger.Hidden.digest(salt, content);
            hidden.line(site.value(), id, salt, content);
        }
        count++;
        return new Row(
                site.value(),
                id,
                kind.number(),
                draft.subject(),
                draft.item(),
                draft.scope(),
                draft.from().truncatedTo(ChronoUnit.MICROS),
                draft.until() == null ? null : draft.until().truncatedTo(ChronoUnit.MICROS),
                at,
                entry,
                draft.corrects() == null ? null : draft.corrects().value(),
                withdrawal,
                draft.sourceId(),
                FactJson.open(draft.fact()),
                privateDigest);
    }

    private void write(Row row, byte[] hash) {
        records.line(
                row.site(),
                row.id(),
                row.kind(),
                row.subject(),
                row.item(),
                row.scope(),
                row.from(),
                row.until(),
                row.recordedAt(),
                row.entry(),
                row.corrects(),
                row.withdrawn(),
                row.sourceId(),
                row.body(),
                row.privateDigest(),
                hash);
    }

    /** Ends the four streams and leaves the head where the last seal is. */
    @Override
    public void close() throws Exception {
        entries.close();
        records.close();
        hidden.close();
        seal();
        seals.close();
    }

    /** The site's head after {@link #close}: position, hash, time. */
    public Object[] head() {
        return new Object[] {site.value(), position, seal, last.atOffset(java.time.ZoneOffset.UTC)};
    }

    /** One COPY on a connection of its own. */
    public static final class Stream implements AutoCloseable {

        private static final HexFormat HEX = HexFormat.of();
        private static final int PORTION = 1 << 18;

        private final Connection connection;
        private final CopyIn copy;
        private final StringBuilder text = new StringBuilder(PORTION + 4_096);

        public Stream(Callable<Connection> connections, String into) throws Exception {
            connection = connections.call();
            copy = connection.unwrap(BaseConnection.class).getCopyAPI().copyIn("copy " + into + " from stdin");
        }

        public void line(@Nullable Object... values) {
            for (int i = 0; i < values.length; i++) {
                if (i > 0) {
                    text.append('\t');
                }
                put(values[i]);
            }
            text.append('\n');
            if (text.length() >= PORTION) {
                send();
            }
        }

        private void put(@Nullable Object value) {
            if (value == null) {
                text.append("\\N");
            } else if (value instanceof byte[] bytes) {
                text.append("\\\\x");
                HEX.formatHex(text, bytes);
            } else if (value instanceof String string) {
                escape(string);
            } else {
                text.append(value);
            }
        }

        private void escape(String string) {
            for (int i = 0; i < string.length(); i++) {
                char sign = string.charAt(i);
                switch (sign) {
                    case '\\' -> text.append("\\\\");
                    case '\t' -> text.append("\\t");
                    case '\n' -> text.append("\\n");
                    default -> text.append(sign);
                }
            }
        }

        private void send() {
            byte[] bytes = text.toString().getBytes(StandardCharsets.UTF_8);
            text.setLength(0);
            try {
                copy.writeToCopy(bytes, 0, bytes.length);
            } catch (SQLException e) {
                throw new UncheckedIOException(new IOException(e));
            }
        }

        @Override
        public void close() throws SQLException {
            send();
            copy.endCopy();
            connection.close();
        }
    }
}
